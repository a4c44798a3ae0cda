import { type Corner, corners } from '../../corner.ts';
import type { Missing, StanceRemark } from '../../finding.ts';
import type { Snapshot } from '../../job.ts';
import type { Check, Tier } from '../../pack.ts';
import { type Motion, motionsOf, motionWeights } from '../../readings/contrasts.ts';
import { combine, type Spread } from '../../readings/estimate.ts';
import type { CheckContext } from '../check-context.ts';
import {
  type CornerHeight,
  type HeightTaken,
  heightBySensor,
  heightByTape,
  readCornerChannel,
  tapeBasisMissing,
} from '../height-sources.ts';
import { measuring } from '../measuring.ts';
import type { Measured } from '../measuring-parts.ts';
import { missing, newestOf, type Outcome } from '../outcome.ts';
import { neverRead } from '../take.ts';
import { readTiers, tiersSchema } from '../tiers.ts';

/** Heights are from the floor: a rigid body on a flat floor has no warp in them. */
const from = 'floor';

interface Channels {
  readonly sensors: string;
  readonly tapes: string;
}

type Heights =
  | { readonly ok: true; readonly at: Readonly<Record<Corner, CornerHeight>> }
  | { readonly ok: false; readonly missing: Missing };

/** All four heights, or the first reason why not; plain absences are told together. */
const allFour = (height: (corner: Corner) => HeightTaken): Heights => {
  const at: Partial<Record<Corner, CornerHeight>> = {};
  const reasons: Missing[] = [];
  for (const corner of corners) {
    const taken = height(corner);
    if (taken.ok) at[corner] = taken.value;
    else reasons.push(taken.missing);
  }
  const { LF, RF, LR, RR } = at;
  if (LF && RF && LR && RR) return { ok: true, at: { LF, RF, LR, RR } };
  const telling = reasons.find(({ why }) => why !== 'no-reading');
  const absent = reasons.flatMap((reason) => (reason.why === 'no-reading' ? [reason] : []));
  const [first] = absent;
  if (telling || !first) return { ok: false, missing: telling ?? { why: 'no-limits', what: from } };
  return { ok: false, missing: { ...first, channels: absent.flatMap(({ channels }) => channels) } };
};

const byTape = ({ tapes }: Channels, snapshot: Snapshot, context: CheckContext, check: Check): Heights => {
  const heights = allFour((corner) => heightByTape(corner, tapes, snapshot, context, check));
  const basis = heights.ok ? tapeBasisMissing(snapshot, from) : null;
  return basis ? { ok: false, missing: basis } : heights;
};

const bySensors = ({ sensors }: Channels, snapshot: Snapshot, context: CheckContext, check: Check): Heights =>
  allFour((corner) => heightBySensor(corner, sensors, from, snapshot, context, check));

const hasTable = ({ job }: CheckContext): boolean => {
  const { heights } = job.vehicle;
  return corners.some((corner) => heights[corner] !== undefined);
};

/** Takes the tape before the sensors, since it needs no table. Where neither is complete, the one in use says why. */
const heightsOf = (
  channels: Channels,
  snapshot: Snapshot,
  context: CheckContext,
  check: Check,
): { readonly heights: Heights; readonly by: StanceRemark['by'] } => {
  const tape = byTape(channels, snapshot, context, check);
  if (tape.ok || !hasTable(context)) return { heights: tape, by: 'tape' };
  const sensors = bySensors(channels, snapshot, context, check);
  const hasTape = corners.some((corner) => snapshot.readings.has(`${channels.tapes}.${corner}`));
  const speaks = sensors.ok || !hasTape;
  return speaks ? { heights: sensors, by: 'sensors' } : { heights: tape, by: 'tape' };
};

const spreadOf = (at: Readonly<Record<Corner, CornerHeight>>, motion: Motion): Spread =>
  combine(
    corners.map((corner) => {
      const { estimate, sensitivity } = at[corner].term;
      return { estimate, sensitivity: motionWeights[motion][corner] * sensitivity };
    }),
  );

const judgeHeights = (
  at: Readonly<Record<Corner, CornerHeight>>,
  by: StanceRemark['by'],
  { sensors, tapes }: Channels,
  tiers: readonly Tier[],
): Outcome => {
  const all = corners.map((corner) => at[corner]);
  const { LF, RF, LR, RR } = at;
  const { heave, pitch, roll, warp } = motionsOf({
    LF: LF.height,
    RF: RF.height,
    LR: LR.height,
    RR: RR.height,
  });
  const noisiest = all.reduce((a, b) => (b.taken.estimate.scatter > a.taken.estimate.scatter ? b : a));
  const beyond = corners.filter((corner) => at[corner].extrapolated);
  // A contrast is half of what a person sees between the two sides, and U is twice u.
  const expanded = { leftUp: 4 * spreadOf(at, 'roll').total, noseUp: 4 * spreadOf(at, 'pitch').total };
  return {
    taken: true,
    value: warp,
    unit: 'mm',
    spread: spreadOf(at, 'warp'),
    scatterFrom: noisiest.taken.estimate.scatterFrom,
    count: noisiest.taken.count,
    tiers,
    remarks: [
      { kind: 'stance', by, height: heave, leftUp: 2 * roll, noseUp: 2 * pitch, expanded },
      ...(beyond.length > 0 ? [{ kind: 'extrapolated' as const, corners: beyond }] : []),
    ],
    channels: corners.map((corner) => `${by === 'tape' ? tapes : sensors}.${corner}`),
  };
};

interface Twist extends Measured, Channels {}

export const twist = measuring<Twist>({
  kind: 'twist',
  about:
    'The warp of four heights from the floor, by tape or else by sensors: a rigid body on a flat floor has none.',
  properties: { of: { type: 'string' }, tape: { type: 'string' }, tiers: tiersSchema },
  required: ['of', 'tape', 'tiers', 'in'],
  read: (raw, scope) => ({
    unit: 'mm',
    sensors: readCornerChannel(raw.of, 'of', 'V', scope)?.id ?? '',
    tapes: readCornerChannel(raw.tape, 'tape', 'mm', scope)?.id ?? '',
    tiers: readTiers(raw.tiers, 'mm', scope),
  }),
  // With a table the sensors give heights even where no tape was read.
  beforehand: (subject, context, check) => (hasTable(context) ? null : neverRead(subject, context, check)),
  subjects: ({ tapes }) => [{ name: 'body', channels: corners.map((corner) => `${tapes}.${corner}`) }],
  measure: (occasion, _subject, context, check, parameters) => {
    const { heights, by } = heightsOf(parameters, newestOf(occasion), context, check);
    return heights.ok ? judgeHeights(heights.at, by, parameters, parameters.tiers) : missing(heights.missing);
  },
});
