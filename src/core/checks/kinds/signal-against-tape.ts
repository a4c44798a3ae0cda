import { type Axle, axles, type Corner, corners, isCorner } from '../../corner.ts';
import type { Remark } from '../../finding.ts';
import type { Snapshot, Weight } from '../../job.ts';
import type { Check } from '../../pack.ts';
import {
  type DepartureWord,
  departureWeights,
  departureWords,
  type SignalReading,
} from '../../readings/departures.ts';
import { combine, type Term } from '../../readings/estimate.ts';
import { formatNumber } from '../../readings/format-number.ts';
import type { Uncertain } from '../../readings/thirds.ts';
import type { CheckContext } from '../check-context.ts';
import { heightByTape, readCornerChannel, tableFrom } from '../height-sources.ts';
import { type Kind, quantitySchema } from '../kind.ts';
import { measuring } from '../measuring.ts';
import type { Measured } from '../measuring-parts.ts';
import { missing, newestOf, type Outcome } from '../outcome.ts';
import { readQuantity } from '../parameters.ts';
import { type SignalChannels, type UpwardSignals, upwardSignals } from '../signal-source.ts';
import type { Subject } from '../subjects.ts';
import { readWords, saysByWordSchema, type WordParts, wordOutcome } from '../word-outcome.ts';

interface Parts extends Measured, SignalChannels {
  readonly tapes: string;
  /** V */
  readonly signalLimit: number;
  /** mm */
  readonly tapeLimit: number;
  /** The check whose service data gives target heights, as it is called in its pack. */
  readonly targets: string | null;
  readonly weight: Weight;
  readonly words: WordParts<DepartureWord>;
}

const difference = (
  left: { value: number; term: Term },
  right: { value: number; term: Term },
): Uncertain => ({
  value: left.value - right.value,
  standard: combine([left.term, { ...right.term, sensitivity: -right.term.sensitivity }]).total,
});

const readingsOf = (
  { readings }: UpwardSignals,
  departure: (reading: UpwardSignals['readings'][number]) => Uncertain,
): SignalReading[] => readings.map((one) => ({ ...departure(one), share: 1 / readings.length }));

/** The middle of the vehicle maker's own band for a corner's height, mm; null where none is stated. */
const targetOf = (
  corner: Corner,
  { targets, tapes }: Parts,
  check: Check,
  { job }: CheckContext,
): number | null => {
  if (targets === null) return null;
  const wanted = `${check.id.split('/')[0]}/${targets}`;
  const own = job.vehicle.serviceData.filter((data) => data.check === wanted);
  const data =
    own.findLast(({ of }) => of === corner || of === `${tapes}.${corner}`) ??
    own.findLast(({ of }) => of === null);
  const { low = null, high = null } = data?.limits ?? {};
  return low === null || high === null ? null : (low + high) / 2;
};

const outcomeOf = (
  signals: readonly SignalReading[],
  unit: 'V' | 'mm',
  tape: Uncertain,
  parts: Parts,
): Outcome => {
  const weights = departureWeights(signals, tape, {
    signal: unit === 'V' ? parts.signalLimit : parts.tapeLimit,
    tape: parts.tapeLimit,
  });
  const remarks: Remark[] = signals.length > 1 ? [{ kind: 'sense-leaves-open' }] : [];
  const only = signals.length === 1 ? signals[0] : undefined;
  if (only) {
    remarks.push({
      kind: 'departures',
      signal: only.value,
      unit,
      tape: tape.value,
      expanded: { signal: 2 * only.standard, tape: 2 * tape.standard },
    });
  }
  return wordOutcome(weights, () => parts.weight, parts.words, remarks);
};

const atAxle = (
  axle: Axle,
  snapshot: Snapshot,
  parts: Parts,
  context: CheckContext,
  check: Check,
): Outcome => {
  const [left, right] = axles[axle];
  const taken = upwardSignals(snapshot, [left, right], parts, context, check);
  if (!taken.ok) return missing(taken.missing);
  const tapes = [left, right].map((corner) => heightByTape(corner, parts.tapes, snapshot, context, check));
  const [onLeft, onRight] = tapes;
  if (!onLeft?.ok)
    return missing(onLeft?.missing ?? { why: 'no-snapshot', states: check.states, channels: [] });
  if (!onRight?.ok)
    return missing(onRight?.missing ?? { why: 'no-snapshot', states: check.states, channels: [] });
  const tape = difference(
    { value: onLeft.value.height, term: onLeft.value.term },
    { value: onRight.value.height, term: onRight.value.term },
  );
  const departure = (reading: UpwardSignals['readings'][number]): Uncertain => {
    const [l, r] = [reading[left], reading[right]];
    if (!l || !r) throw new Error('an axle has two signals');
    return difference(l, r);
  };
  return outcomeOf(readingsOf(taken.signals, departure), taken.signals.unit, tape, parts);
};

/** A corner's own signal and tape, each against its target; only heights can be held against it. */
const atCorner = (
  corner: Corner,
  snapshot: Snapshot,
  parts: Parts,
  context: CheckContext,
  check: Check,
): Outcome => {
  const target = targetOf(corner, parts, check, context);
  if (target === null) return missing({ why: 'vehicle-not-stated', what: `target height ${corner}` });
  const taken = upwardSignals(snapshot, [corner], parts, context, check);
  if (!taken.ok) return missing(taken.missing);
  const byTape = heightByTape(corner, parts.tapes, snapshot, context, check);
  if (!byTape.ok) return missing(byTape.missing);
  const against = ({ value, term }: { value: number; term: Term }): Uncertain => ({
    value: value - target,
    standard: combine([term]).total,
  });
  const departure = (reading: UpwardSignals['readings'][number]): Uncertain => {
    const own = reading[corner];
    if (!own) throw new Error('a corner has one signal');
    return against(own);
  };
  const tape = against({ value: byTape.value.height, term: byTape.value.term });
  return outcomeOf(readingsOf(taken.signals, departure), taken.signals.unit, tape, parts);
};

/** Corners that have both measured pairs and a target, so that each can be told by itself. */
const ownCorners = (parts: Parts, check: Check, context: CheckContext): readonly Corner[] =>
  corners.filter(
    (corner) =>
      !('why' in tableFrom(corner, 'wheel-centre', context)) &&
      targetOf(corner, parts, check, context) !== null,
  );

const subjectOf = (name: string, at: readonly Corner[], { signals, tapes }: Parts): Subject => ({
  name,
  channels: [signals, tapes].flatMap((channel) => at.map((corner) => `${channel}.${corner}`)),
});

const judging = measuring<Parts>({
  kind: 'signal-against-tape',
  about:
    'Whether the signals of an axle and its heights by tape depart from equal together, alone or against each other; at a corner with target heights, its own.',
  properties: {
    of: { type: 'string' },
    against: { type: 'string' },
    /** Heights as a scan tool shows them, which stand for signals where there are no volts. */
    shown: { type: 'string' },
    reference: quantitySchema,
    'signal-departs': quantitySchema,
    'tape-departs': quantitySchema,
    /** A check of this pack whose service data gives the target heights. */
    targets: { type: 'string' },
    weight: { enum: ['hold', 'look', 'note'] },
    'says-by-word': saysByWordSchema,
  },
  required: ['of', 'against', 'reference', 'signal-departs', 'tape-departs', 'weight', 'in'],
  read: (raw, scope) => {
    const weight = raw.weight as Weight;
    const words = readWords(raw['says-by-word'], departureWords, ['alike', 'honest'], weight, scope);
    return {
      unit: null,
      tiers: [words.plain],
      signals: readCornerChannel(raw.of, 'of', 'V', scope)?.id ?? '',
      tapes: readCornerChannel(raw.against, 'against', 'mm', scope)?.id ?? '',
      shown:
        raw.shown === undefined ? null : (readCornerChannel(raw.shown, 'shown', 'mm', scope)?.id ?? null),
      reference: readQuantity(raw.reference, 'V', ['reference'], scope),
      signalLimit: readQuantity(raw['signal-departs'], 'V', ['signal-departs'], scope),
      tapeLimit: readQuantity(raw['tape-departs'], 'mm', ['tape-departs'], scope),
      targets: raw.targets === undefined ? null : String(raw.targets),
      weight,
      words,
    };
  },
  limits: ({ weight, signalLimit, tapeLimit }) => [
    `${weight}: the signal departs from equal by over ${formatNumber(signalLimit)} V and the tape not, or the tape by over ${formatNumber(tapeLimit)} mm and the signal not, or each its own way`,
  ],
  subjects: (parts, { fitted }) => [
    ...(Object.entries(axles) as [Axle, readonly Corner[]][])
      .filter(([, pair]) => pair.every((corner) => fitted.includes(corner)))
      .map(([axle, pair]) => subjectOf(axle, pair, parts)),
    ...fitted.map((corner) => subjectOf(corner, [corner], parts)),
  ],
  measure: (occasion, { name }, context, check, parts) =>
    isCorner(name)
      ? atCorner(name, newestOf(occasion), parts, context, check)
      : atAxle(name as Axle, newestOf(occasion), parts, context, check),
});

export const signalAgainstTape: Kind<Parts> = {
  ...judging,
  judge: (plan, parts, context) => {
    const own = ownCorners(parts, plan.check, context);
    return judging
      .judge(plan, parts, context)
      .filter(({ subject }) => !isCorner(subject) || own.includes(subject));
  },
};
