import type { Corner } from '../../corner.ts';
import type { Missing, Remark } from '../../finding.ts';
import type { LogEntry, Snapshot, Weight } from '../../job.ts';
import { keyOf } from '../../key.ts';
import type { Check } from '../../pack.ts';
import {
  hasMoved,
  type Moved,
  type MovementLimits,
  type MovementWord,
  movementWeights,
  movementWords,
} from '../../readings/command-movement.ts';
import { combine } from '../../readings/estimate.ts';
import { formatNumber } from '../../readings/format-number.ts';
import { neighbours } from '../../readings/spring-loss.ts';
import { mayFollow } from '../../steps/staleness.ts';
import type { CheckContext } from '../check-context.ts';
import { readCornerChannel } from '../height-sources.ts';
import { quantitySchema, toldSchema } from '../kind.ts';
import { measuring } from '../measuring.ts';
import type { Measured } from '../measuring-parts.ts';
import { missing, type Occasion, type Outcome } from '../outcome.ts';
import { likeConditions } from '../over-time/like-conditions.ts';
import { sessionPairs } from '../over-time/session-pairs.ts';
import { readQuantity } from '../parameters.ts';
import { cornerNamed, type SignalChannels, senseOpen, upwardSignals } from '../signal-source.ts';
import { take } from '../take.ts';
import { readWords, saysByWordSchema, type WordParts, wordOutcome } from '../word-outcome.ts';

interface Parts extends Measured, SignalChannels {
  readonly tapes: string;
  readonly limits: MovementLimits;
  /** The least change of a shown height, mm. */
  readonly shownFollows: number;
  /** The test that moves the body. */
  readonly test: string;
  readonly words: WordParts<MovementWord>;
}

const weights: Readonly<Record<MovementWord, Weight>> = {
  follows: 'look',
  'wrong-way': 'hold',
  still: 'look',
  'no-movement': 'look',
};

type MovedTaken =
  | { readonly ok: true; readonly moved: Moved; readonly unit: 'V' | 'mm' }
  | { readonly ok: false; readonly missing: Missing };

const readable = (corner: Corner, { signals, shown, tapes }: Parts, { readings }: Snapshot): boolean =>
  readings.has(`${tapes}.${corner}`) &&
  (readings.has(`${signals}.${corner}`) || (shown !== null && readings.has(`${shown}.${corner}`)));

/** How a corner moved between two snapshots; a tape is laid anew, so both of its readings have an error of their own. */
const movedBetween = (
  corner: Corner,
  before: Snapshot,
  after: Snapshot,
  parts: Parts,
  context: CheckContext,
  check: Check,
): MovedTaken => {
  const tapes = [before, after].map((snapshot) => take(snapshot, `${parts.tapes}.${corner}`, context, check));
  const signals = [before, after].map((snapshot) => upwardSignals(snapshot, [corner], parts, context, check));
  const [tape0, tape1] = tapes;
  const [signal0, signal1] = signals;
  for (const one of [tape0, tape1, signal0, signal1]) if (one && !one.ok) return one;
  if (!tape0?.ok || !tape1?.ok || !signal0?.ok || !signal1?.ok) throw new Error('two snapshots are compared');
  if (signal0.signals.unit !== signal1.signals.unit)
    return {
      ok: false,
      missing: { why: 'no-reading', states: check.states, channels: signal0.signals.channels },
    };
  const [from, to] = [signal0.signals.readings[0]?.[corner], signal1.signals.readings[0]?.[corner]];
  if (!from || !to) throw new Error('a corner has one signal');
  return {
    ok: true,
    unit: signal0.signals.unit,
    moved: {
      tape: {
        value: tape1.estimate.value - tape0.estimate.value,
        standard: Math.hypot(
          combine([{ estimate: tape0.estimate, sensitivity: 1 }]).total,
          combine([{ estimate: tape1.estimate, sensitivity: 1 }]).total,
        ),
      },
      signal: {
        value: to.value - from.value,
        standard: combine([to.term, { ...from.term, sensitivity: -from.term.sensitivity }]).total,
      },
      senseKnown: signal0.signals.readings.length === 1,
    },
  };
};

/** Whether the log has the command between two snapshots, or at the time of either as it was typed. */
const commanded = (test: string, before: Snapshot, after: Snapshot, log: readonly LogEntry[]): boolean =>
  log.some(
    (entry) =>
      entry.did === 'tested' &&
      entry.what === test &&
      mayFollow(entry, before.stamp.at) &&
      entry.stamp.at <= after.stamp.at + after.stamp.resolution,
  );

/** Levelling that is on puts the body back while somebody tapes it. */
const levellingMissing = (snapshots: Occasion): Missing | null => {
  const wants = { condition: 'levelling', wants: 'disabled or faulted' };
  for (const { conditions } of snapshots) {
    const is = conditions.words.levelling;
    if (is === undefined) return { why: 'condition-not-stated', ...wants };
    if (is === 'active') return { why: 'condition-differs', ...wants, is };
  }
  return null;
};

const measure = (
  occasion: Occasion,
  { name }: { name: string },
  context: CheckContext,
  check: Check,
  parts: Parts,
): Outcome => {
  const corner = cornerNamed(name);
  const [before, after] = occasion;
  if (!before || !after) throw new Error('a movement lies between two snapshots');
  const levelling = levellingMissing(occasion);
  if (levelling) return missing(levelling);
  const own = movedBetween(corner, before, after, parts, context, check);
  if (!own.ok) return missing(own.missing);
  const limits = own.unit === 'V' ? parts.limits : { ...parts.limits, follows: parts.shownFollows };
  if (!hasMoved(own.moved, limits) && !commanded(parts.test, before, after, context.job.log))
    return missing({ why: 'not-moved', channel: keyOf(parts.tapes, corner), wants: limits.moved });
  const mate = neighbours[corner].axle;
  const pair =
    context.job.vehicle.fitted.includes(mate) && [before, after].every((one) => readable(mate, parts, one))
      ? movedBetween(mate, before, after, parts, context, check)
      : null;
  const withPair = pair?.ok && pair.unit === own.unit ? pair.moved : null;
  const remarks: Remark[] = [
    { kind: 'movement', tape: own.moved.tape.value, signal: own.moved.signal.value, unit: own.unit },
    ...(own.unit === 'V' && senseOpen([corner], context) ? [{ kind: 'sense-leaves-open' as const }] : []),
  ];
  return wordOutcome(
    movementWeights(own.moved, withPair, limits),
    (word) => weights[word],
    parts.words,
    remarks,
  );
};

export const movesTogether = measuring<Parts>({
  kind: 'moves-together',
  about:
    'Whether the signal of a corner follows the tape from one snapshot to the next after a command to raise or lower, the right way and as far as its pair.',
  properties: {
    of: { type: 'string' },
    against: { type: 'string' },
    shown: { type: 'string' },
    /** What a falling sensor counts from; it cancels in a movement, so a pack need not give it. */
    reference: toldSchema,
    /** The least movement by tape that tells anything. */
    moved: quantitySchema,
    /** The least change of a signal that follows, in volts and as a shown height. */
    follows: quantitySchema,
    'shown-follows': quantitySchema,
    /** How much less for each mm than its pair. */
    pair: quantitySchema,
    /** The test that moves the body: after it a body that stays tells something, too. */
    test: { type: 'string' },
    'says-by-word': saysByWordSchema,
  },
  required: ['of', 'against', 'moved', 'follows', 'shown-follows', 'pair', 'test', 'in'],
  read: (raw, scope) => {
    const words = readWords(raw['says-by-word'], movementWords, ['follows'], 'hold', scope);
    return {
      unit: null,
      tiers: [words.plain],
      signals: readCornerChannel(raw.of, 'of', 'V', scope)?.id ?? '',
      tapes: readCornerChannel(raw.against, 'against', 'mm', scope)?.id ?? '',
      shown:
        raw.shown === undefined ? null : (readCornerChannel(raw.shown, 'shown', 'mm', scope)?.id ?? null),
      reference: raw.reference === undefined ? 0 : readQuantity(raw.reference, 'V', ['reference'], scope),
      limits: {
        moved: readQuantity(raw.moved, 'mm', ['moved'], scope),
        follows: readQuantity(raw.follows, 'V', ['follows'], scope),
        pair: readQuantity(raw.pair, '%', ['pair'], scope) / 100,
      },
      shownFollows: readQuantity(raw['shown-follows'], 'mm', ['shown-follows'], scope),
      test: String(raw.test),
      words,
    };
  },
  limits: ({ limits }) => [
    `hold: the signal goes against the tape, which moved by over ${formatNumber(limits.moved)} mm`,
    `look: it stays within ${formatNumber(limits.follows)} V, or moves by over ${formatNumber(100 * limits.pair)} % less for each mm than its pair, or nothing moves on command`,
  ],
  subjects: ({ signals, tapes }, { fitted }) =>
    fitted.map((corner) => ({ name: corner, channels: [keyOf(signals, corner), keyOf(tapes, corner)] })),
  occasions: (fitting, { name, channels }, context, parts) =>
    sessionPairs(
      fitting.filter((one) => readable(cornerNamed(name), parts, one)),
      channels,
      context,
    ).filter(([one, other]) => one && other && likeConditions(one, other, ['heights-from'])),
  withoutOccasion: (_fitting, { channels }, { states }) => ({
    why: 'too-few-points',
    has: 0,
    wants: 2,
    states,
    condition: `${channels.join(' and ')} read before and after a raise or lower command`,
  }),
  measure,
});
