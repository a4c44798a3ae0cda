import type { Corner } from '../../core/corner.ts';
import type { CornerWord } from '../../core/outlook/corner-word.ts';
import type { Together } from '../../core/outlook/together.ts';
import { firstClause } from './first-clause.ts';
import { listText } from './list-text.ts';

/** The word beside a corner. */
export const cornerWords: Readonly<Record<CornerWord, string>> = {
  ok: 'ok',
  low: 'LOW',
  high: 'high',
  lower: 'lower',
  close: 'close',
  jumps: 'jumps',
  'not-read': 'not read',
  old: 'old',
  'not-judged': 'not judged',
};

const plainWord: Readonly<Partial<Record<CornerWord, string>>> = {
  low: 'low',
  high: 'high',
  lower: 'lower than across the axle',
};

const where = (some: readonly Corner[]): string => (some.length === 4 ? 'all four corners' : listText(some));
const signalsOf = (some: readonly Corner[]): string =>
  some.length === 1 ? `the signal of ${some[0]} is` : `the signals of ${where(some)} are`;
const does = (some: readonly Corner[], one: string, many: string): string => (some.length === 1 ? one : many);

const tapeWords = {
  none: 'a tape measure tells whether the body is, too',
  even: 'the tape finds the body even',
  old: 'the tape is older than the work, or not judged',
} as const;

/** What signals and tape say together, in one sentence; null where there is nothing to say. */
export const togetherText = (told: Together): string | null => {
  switch (told.kind) {
    case 'told': {
      const places = new Map<string, string[]>();
      for (const { words, subject } of told.findings)
        places.set(words ?? '', [...(places.get(words ?? '') ?? []), subject]);
      return [...places]
        .map(([words, subjects]) => {
          const said = places.size > 1 ? firstClause(words) : words;
          return `${listText([...new Set(subjects)])}: ${said}`;
        })
        .join('; ');
    }
    case 'both-off':
      return `the body really stands off at the ${listText(told.axles)}: tape and signals agree`;
    case 'signal-only':
      return `${signalsOf(told.corners)} ${plainWord[told.word] ?? 'off'}; ${tapeWords[told.tape]}`;
    case 'body-only':
      return `by tape the body is ${plainWord[told.word] ?? 'off'} at ${where(told.corners)}; no signal is beyond its limits`;
    case 'jumps':
      return `${signalsOf(told.corners)} not steady while nothing moves`;
    case 'sinks':
      return `the body goes down at ${where(told.corners)} while it stands`;
    case 'even':
      return [
        told.unread.length === 4 ? 'no corner was read' : 'no corner stands out by its signal',
        ...(told.tape ? ['the tape agrees'] : []),
        ...(told.unread.length > 0
          ? [`${listText(told.unread)} ${does(told.unread, 'was', 'were')} not read`]
          : []),
      ].join('; ');
    case 'old':
      return 'all of it is older than the work';
    case 'nothing':
      return null;
  }
};
