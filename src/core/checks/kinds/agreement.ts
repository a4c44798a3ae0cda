import type { Snapshot } from '../../job.ts';
import { combine } from '../../readings/estimate.ts';
import { mayFollow } from '../../steps/staleness.ts';
import type { CheckContext } from '../check-context.ts';
import type { Schema } from '../kind.ts';
import { measuring } from '../measuring.ts';
import type { Measured } from '../measuring-parts.ts';
import { missing, newestOf } from '../outcome.ts';
import { readChannel } from '../parameters.ts';
import { subjectsOf } from '../subjects.ts';
import { neverRead, takeAll } from '../take.ts';
import { readTiers, tiersSchema } from '../tiers.ts';

interface Agreement extends Measured {
  readonly of: string;
  readonly against: string;
  /** What each tier waits for, in their order. */
  readonly once: readonly (Once | null)[];
}

/** A tier that holds only once a test was done: `once: {test: second-meter, found: meters-agree}`. */
interface Once {
  readonly test: string;
  readonly found: string;
}

const tierSchema = tiersSchema.items as Schema;

const tiersOnceSchema: Schema = {
  ...tiersSchema,
  items: {
    ...tierSchema,
    properties: {
      ...(tierSchema.properties as Schema),
      once: {
        type: 'object',
        additionalProperties: false,
        required: ['test', 'found'],
        properties: { test: { type: 'string' }, found: { type: 'string' } },
      },
    },
  },
};

/** Whether the newest such test since the reading, or at its time, found what a tier asks for. */
const answered = ({ test, found }: Once, { job }: CheckContext, { stamp }: Snapshot): boolean => {
  const entry = job.log.findLast(
    (one) => one.did === 'tested' && one.what === test && !one.failed && mayFollow(one, stamp.at),
  );
  return entry?.found === found;
};

export const agreement = measuring<Agreement>({
  kind: 'agreement',
  about: 'One reading less another of the same thing, against limits that may differ by sign.',
  properties: {
    of: { type: 'string' },
    against: { type: 'string' },
    tiers: tiersOnceSchema,
  },
  required: ['of', 'against', 'tiers', 'in'],
  read: (raw, scope) => {
    const of = readChannel(raw.of, ['of'], scope);
    const against = readChannel(raw.against, ['against'], scope);
    const unit = of?.unit ?? 'V';
    if (of && against && of.unit !== against.unit) {
      const message = `${of.id} is in ${of.unit} and ${against.id} in ${against.unit}`;
      scope.flaw({ code: 'wrong-unit', path: ['against'], message, hint: 'compare channels of one unit' });
    }
    return {
      unit,
      tiers: readTiers(raw.tiers, unit, scope),
      of: of?.id ?? '',
      against: against?.id ?? '',
      once: (raw.tiers as { once?: Once }[]).map(({ once }) => once ?? null),
    };
  },
  beforehand: neverRead,
  subjects: ({ of, against }, shape, wasRead) => subjectsOf(shape, wasRead, of, [against]),
  measure: (occasion, subject, context, check, { tiers, once }) => {
    const all = takeAll(newestOf(occasion), subject.channels, context, check);
    if (!all.ok) return missing(all.missing);
    const [x, y] = all.taken;
    if (!x || !y) throw new Error('an agreement looks at two channels');
    const noisier = x.estimate.scatter >= y.estimate.scatter ? x : y;
    return {
      taken: true,
      value: x.estimate.value - y.estimate.value,
      unit: x.estimate.unit,
      spread: combine([
        { estimate: x.estimate, sensitivity: 1 },
        { estimate: y.estimate, sensitivity: -1 },
      ]),
      scatterFrom: noisier.estimate.scatterFrom,
      count: noisier.count,
      tiers: once.every((one) => one === null)
        ? tiers
        : tiers.filter((_, index) => {
            const test = once[index] ?? null;
            return test === null || answered(test, context, newestOf(occasion));
          }),
    };
  },
});
