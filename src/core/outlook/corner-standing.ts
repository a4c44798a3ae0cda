import { axleOf, axles, type Corner, corners } from '../corner.ts';
import type { Finding } from '../finding.ts';
import { type Reading, type Snapshot, type State, states } from '../job.ts';
import { keyOf, parseKey } from '../key.ts';
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

const isReadIn = (channel: string, { readings }: Snapshot): boolean =>
  corners.some((corner) => readings.has(keyOf(channel, corner)));

/** Whether the newest word of some check on a channel is about this snapshot, and that it is off. */
const isStillOff = (channel: string, { id }: Snapshot, findings: readonly Finding[]): boolean =>
  findings.some(
    (one) =>
      one.snapshot === id &&
      one.newest &&
      one.verdict === 'out' &&
      one.channels.some((key) => parseKey(key).base === channel),
  );

/** Snapshots that have a channel at any corner and still count: the newest of each state, and what is still off. */
const counting = (channel: string, { job, findings }: BriefWorksheet): Snapshot[] => {
  const read = job.snapshots.filter((one) => isReadIn(channel, one));
  const newest = new Set(states.map((state) => read.findLast((one) => one.state === state)));
  return read
    .filter((one) => newest.has(one) || isStillOff(channel, one, findings))
    .sort((a, b) => b.stamp.at - a.stamp.at);
};

const readingIn = (
  snapshot: Snapshot,
  channel: string,
  corner: Corner,
  findings: readonly Finding[],
): CornerReading | null => {
  const key = keyOf(channel, corner);
  const reading = snapshot.readings.get(key);
  if (!reading) return null;
  const own = findings.filter((one) => one.snapshot === snapshot.id && one.newest);
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
  counting(channel, sheet)
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
  const channel =
    signalChannels.find((one) => job.snapshots.some((snapshot) => isReadIn(one, snapshot))) ?? 'position';
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
