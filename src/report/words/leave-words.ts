import { isCorner } from '../../core/corner.ts';
import type { Held } from '../../core/outlook/held.ts';
import type { MayLeave } from '../../core/outlook/may-leave.ts';
import type { FindingReason } from '../../core/steps/reasons.ts';
import type { Reason } from '../../core/worksheet-parts.ts';
import { displayWidth } from '../columns.ts';
import { fitting } from '../sheet/fitting.ts';
import { timeText } from '../times.ts';
import { statedWords } from './danger-words.ts';
import { listText } from './list-text.ts';
import { reasonText } from './reason-words.ts';

/** A title in the middle of a sentence: `Trouble code` becomes `trouble code`, `LR` and `5 V` stay. */
const inSentence = (title: string): string =>
  /^[A-Z][a-z]/u.test(title) ? `${title.charAt(0).toLowerCase()}${title.slice(1)}` : title;

/** Each once, as many as there is room for. */
const named = (titles: readonly string[], room: number): string => {
  const own = [...new Set(titles.map(inSentence))];
  const all = listText(own);
  return displayWidth(all) <= room ? all : fitting(own, room, ', ');
};

/** More places than these are left to the list of what is out. */
const mostPlaces = 2;

/** Each title once, with where it is out: `left against right (rear)`, `trouble code (C3A23)`. */
const titlesOf = (findings: readonly FindingReason[]): string[] => {
  const places = new Map<string, Set<string>>();
  for (const { title, subject } of findings) places.set(title, (places.get(title) ?? new Set()).add(subject));
  return [...places].map(([title, some]) => {
    const own = [...some].filter((place) => !title.toLowerCase().includes(place.toLowerCase()));
    if (own.length > mostPlaces && !own.every(isCorner))
      return `${title} (${own.slice(0, 1).join('')} and ${own.length - 1} more)`;
    return own.length === 0 || own[0] === 'body' ? title : `${title} (${own.join(' ')})`;
  });
};

/** Of several conditions that a part does not meet the first is enough. */
const shortened = (reason: Reason): Reason =>
  reason.kind === 'part-not-advised' ? { ...reason, conditions: reason.conditions.slice(0, 1) } : reason;

/**
 * The one thing that keeps a hold point from being clear: `left against right (rear), trouble code (C3A23)`.
 *
 * @param room columns that it has on its line
 */
export const heldText = (held: Held, zone: string, room: number): string => {
  switch (held.of) {
    case 'findings':
      return named(titlesOf(held.findings), room);
    case 'old-findings': {
      const head = 'not read again: ';
      return head + named(titlesOf(held.findings), room - head.length);
    }
    case 'faults': {
      const tail = ' at fault and not put right';
      const titles = held.faults.map(({ title }) => `the ${title}`);
      return `${named(titles, room - tail.length - 4)} ${titles.length === 1 ? 'is' : 'are'}${tail}`;
    }
    case 'steps':
      return held.count === 1 ? 'one step is outstanding' : `${held.count} steps are outstanding`;
    case 'reason':
      return reasonText(shortened(held.reason), zone);
  }
};

/** Whether the vehicle may leave, with the shortest reason on one line: `DO NOT RELEASE: warning lamp`. */
export const mayLeaveText = (leave: MayLeave, zone: string, width: number): string => {
  switch (leave.verdict) {
    case 'do-not-drive': {
      const head = 'DO NOT DRIVE: ';
      const dangers = leave.because.map(({ id, title }) => statedWords[id] ?? title ?? id);
      return head + named(dangers, width - head.length);
    }
    case 'do-not-release': {
      const head = 'DO NOT RELEASE: ';
      return head + heldText(leave.because, zone, width - head.length);
    }
    case 'may-leave': {
      const head =
        leave.since === null
          ? 'MAY LEAVE: nothing holds the release'
          : `MAY LEAVE: released ${timeText(leave.since, zone)}`;
      if (leave.declined.length === 0) return head;
      const tail = `${head}; declined: `;
      return tail + named([...leave.declined], width - tail.length);
    }
    case 'not-judged':
      return 'RELEASE NOT JUDGED: no pack of this job says what it takes';
  }
};
