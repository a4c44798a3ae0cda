import { type Axle, axles, type Corner } from '../../corner.ts';
import type { Snapshot } from '../../job.ts';
import type { Check } from '../../pack.ts';
import { combine, type Term } from '../../readings/estimate.ts';
import type { CheckContext, Taken } from '../check-context.ts';
import { readCornerChannel } from '../height-sources.ts';
import { measuring } from '../measuring.ts';
import type { Measured } from '../measuring-parts.ts';
import { missing, newestOf, type Occasion, type Outcome } from '../outcome.ts';
import { sessionPairs } from '../over-time/session-pairs.ts';
import type { Subject } from '../subjects.ts';
import { takeAll } from '../take.ts';
import { readTiers, tiersSchema } from '../tiers.ts';

interface Parts extends Measured {
  readonly tyres: string;
  readonly tapes: string;
}

const keysOf = (channel: string, axle: Axle): string[] =>
  axles[axle].map((corner: Corner) => `${channel}.${corner}`);
const reads = ({ readings }: Snapshot, keys: readonly string[]): boolean =>
  keys.every((key) => readings.has(key));
const fromOf = ({ conditions }: Snapshot): string | undefined => conditions.words['heights-from'];

/** Left less right of typed heights of the wheels' centres, or of floor-based less wheel-centre-based heights. */
const outcomeOf = (taken: readonly Taken[], signs: readonly number[], { tiers }: Parts): Outcome => {
  const terms: Term[] = taken.map(({ estimate }, index) => ({ estimate, sensitivity: signs[index] ?? 0 }));
  const [first] = taken;
  if (!first) throw new Error('a difference looks at two tyres');
  return {
    taken: true,
    value: terms.reduce((sum, { estimate, sensitivity }) => sum + sensitivity * estimate.value, 0),
    unit: 'mm',
    // A tape is laid anew at each place, so no error of it is common to two readings.
    spread: combine(
      terms.map((term, index) => ({ ...term, estimate: { ...term.estimate, instrument: `tape ${index}` } })),
    ),
    scatterFrom: first.estimate.scatterFrom,
    count: first.count,
    tiers,
  };
};

const measure = (
  occasion: Occasion,
  { name }: Subject,
  context: CheckContext,
  check: Check,
  parts: Parts,
): Outcome => {
  const axle = name as Axle;
  const after = newestOf(occasion);
  const typed = keysOf(parts.tyres, axle);
  if (occasion.length === 1) {
    const all = takeAll(after, typed, context, check);
    return all.ok ? outcomeOf(all.taken, [1, -1], parts) : missing(all.missing);
  }
  const [before = after] = occasion;
  const [floor, centre] = fromOf(after) === 'floor' ? [after, before] : [before, after];
  const heights = keysOf(parts.tapes, axle);
  const byFloor = takeAll(floor, heights, context, check);
  const byCentre = takeAll(centre, heights, context, check);
  if (!byFloor.ok) return missing(byFloor.missing);
  if (!byCentre.ok) return missing(byCentre.missing);
  return outcomeOf([...byFloor.taken, ...byCentre.taken], [1, -1, -1, 1], parts);
};

export const tyreDifference = measuring<Parts>({
  kind: 'tyre-difference',
  about:
    "Height of the wheels' centres over the floor, left less right on one axle: as typed, or from heights taken from the floor and from the wheels' centres in one session.",
  properties: { of: { type: 'string' }, heights: { type: 'string' }, tiers: tiersSchema },
  required: ['of', 'heights', 'tiers', 'in'],
  read: (raw, scope) => ({
    unit: 'mm',
    tiers: readTiers(raw.tiers, 'mm', scope),
    tyres: readCornerChannel(raw.of, 'of', 'mm', scope)?.id ?? '',
    tapes: readCornerChannel(raw.heights, 'heights', 'mm', scope)?.id ?? '',
  }),
  subjects: ({ tyres }, { fitted }) =>
    (Object.keys(axles) as Axle[])
      .filter((axle) => axles[axle].every((corner) => fitted.includes(corner)))
      .map((axle) => ({ name: axle, channels: keysOf(tyres, axle) })),
  occasions: (fitting, { name, channels }, context, { tapes }) => {
    const heights = keysOf(tapes, name as Axle);
    const taped = fitting.filter((one) => fromOf(one) !== undefined && reads(one, heights));
    const pairs = sessionPairs(taped, heights, context).filter(([one, other]) => {
      return one !== undefined && other !== undefined && fromOf(one) !== fromOf(other);
    });
    const typed = fitting.filter(({ readings }) => channels.some((key) => readings.has(key)));
    return [...pairs, ...typed.map((one) => [one])].sort(
      (a, b) => newestOf(a).stamp.at - newestOf(b).stamp.at,
    );
  },
  withoutOccasion: (_fitting, { channels }, { states }) => ({ why: 'no-reading', states, channels }),
  measure,
});
