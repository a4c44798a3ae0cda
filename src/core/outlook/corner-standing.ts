import { axleOf, axles, type Corner, corners } from '../corner.ts';
import type { Finding } from '../finding.ts';
import { type Job, type Reading, type Snapshot, type State, states } from '../job.ts';
import { keyOf } from '../key.ts';
import type { BriefWorksheet } from '../worksheet.ts';
import { type CornerWord, cornerWord } from './corner-word.ts';

/** One reading of a corner with the word that belongs to it. */
export interface CornerReading {
  readonly channel: string;
  readonly snapshot: Snapshot;
  readonly reading: Reading;
  readonly word: CornerWord;
  /** The checks' own judgements of it alone: the first has the value in the unit that it is judged in. */
  readonly judged: readonly Finding[];
}

export interface CornerStanding {
  readonly corner: Corner;
  readonly isFitted: boolean;
  /** Null where it was never read. */
  readonly signal: CornerReading | null;
  readonly tape: CornerReading | null;
}

/** How the corners stand, by their signals and by tape. */
export interface CornerStandings {
  readonly corners: readonly CornerStanding[];
  /** The snapshot that most of the signals are of; null where none was read. */
  readonly signalsOf: Snapshot | null;
  readonly tapesOf: Snapshot | null;
}

/** What tells a corner's height beside the tape, the usual one first. */
const signalChannels = ['position', 'shown-height', 'shown-travel'];
const tapeChannel = 'height';

/** States in which the body stands, and what is read of it means most. */
const standing: readonly State[] = ['key-on', 'running', 'rest'];

/** The newest snapshot of each state that has a channel at any corner, the newest first. */
const newestWith = (channel: string, { snapshots }: Job): Snapshot[] =>
  states
    .flatMap((state) => {
      const found = snapshots.findLast(
        (one) => one.state === state && corners.some((corner) => one.readings.has(`${channel}.${corner}`)),
      );
      return found ? [found] : [];
    })
    .sort((a, b) => b.stamp.at - a.stamp.at);

const readingIn = (
  snapshot: Snapshot,
  channel: string,
  corner: Corner,
  findings: readonly Finding[],
): CornerReading | null => {
  const key = keyOf(channel, corner);
  const reading = snapshot.readings.get(key);
  if (!reading) return null;
  const own = findings.filter((one) => one.snapshot === snapshot.id);
  return {
    channel: key,
    snapshot,
    reading,
    word: cornerWord(own, key, corner, reading),
    judged: own.filter(
      ({ subject, channels, measured }) =>
        subject === corner && channels.length === 1 && channels[0] === key && measured !== null,
    ),
  };
};

const fine: ReadonlySet<CornerWord> = new Set(['ok', 'old', 'not-read', 'not-judged']);

/** How much a snapshot has to say of the corners: what is off before what is not, what is fresh before what is old. */
const tellingOf = (
  snapshot: Snapshot,
  channel: string,
  findings: readonly Finding[],
): readonly [off: number, fresh: number, stands: number, read: number] => {
  const read = corners.flatMap((corner) => readingIn(snapshot, channel, corner, findings) ?? []);
  return [
    read.filter(({ word }) => !fine.has(word)).length > 0 ? 1 : 0,
    read.some(({ word }) => word !== 'old') ? 1 : 0,
    standing.includes(snapshot.state) ? 1 : 0,
    read.length,
  ];
};

/** The snapshot that shows the corners, and the others that fill its gaps. */
const inOrder = (channel: string, sheet: BriefWorksheet): Snapshot[] =>
  newestWith(channel, sheet.job)
    .map((snapshot) => ({ snapshot, telling: tellingOf(snapshot, channel, sheet.findings) }))
    .sort((a, b) => b.telling.map((part, at) => part - (a.telling[at] ?? 0)).find((away) => away !== 0) ?? 0)
    .map(({ snapshot }) => snapshot);

const newestReading = (
  from: readonly Snapshot[],
  channel: string,
  corner: Corner,
  findings: readonly Finding[],
): CornerReading | null => {
  const found = from.flatMap((snapshot) => readingIn(snapshot, channel, corner, findings) ?? []);
  return found.find(({ reading }) => reading.kind !== 'untaken') ?? found[0] ?? null;
};

/** A corner is not lower than the one across where that one is off by itself. */
const settled = (standings: readonly CornerStanding[], of: 'signal' | 'tape'): readonly CornerStanding[] =>
  standings.map((one) => {
    const own = one[of];
    if (own?.word !== 'lower') return one;
    const across = axles[axleOf(one.corner)].find((corner) => corner !== one.corner);
    const other = standings.find(({ corner }) => corner === across)?.[of]?.word;
    return other === 'low' || other === 'high' ? { ...one, [of]: { ...own, word: 'ok' as const } } : one;
  });

/** How each corner stands by the newest that was read of it. */
export const cornerStandings = (sheet: BriefWorksheet): CornerStandings => {
  const { job, findings } = sheet;
  const channel = signalChannels.find((one) => newestWith(one, job).length > 0) ?? 'position';
  const signals = inOrder(channel, sheet);
  const tapes = inOrder(tapeChannel, sheet);
  const all = corners.map((corner) => ({
    corner,
    isFitted: job.vehicle.fitted.includes(corner),
    signal: newestReading(signals, channel, corner, findings),
    tape: newestReading(tapes, tapeChannel, corner, findings),
  }));
  return {
    corners: settled(settled(all, 'signal'), 'tape'),
    signalsOf: signals[0] ?? null,
    tapesOf: tapes[0] ?? null,
  };
};
