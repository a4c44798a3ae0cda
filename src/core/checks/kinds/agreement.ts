import type { Snapshot } from '../../job.ts';
import type { Scene } from '../../pack.ts';
import { combine } from '../../readings/estimate.ts';
import { mayFollow } from '../../steps/staleness.ts';
import type { Kind, Schema } from '../kind.ts';
import { measuring } from '../measuring.ts';
import { missing, newestOf } from '../outcome.ts';
import { readChannel } from '../parameters.ts';
import { subjectsOf } from '../subjects.ts';
import { neverRead, takeAll } from '../take.ts';
import { readTiers, tierLines, tiersSchema } from '../tiers.ts';

/** A tier that holds only once a test was done: `once: {test: second-meter, found: meters-agree}`. */
interface Once {
  readonly test: string;
  readonly found: string;
}

const tiersOnceSchema: Schema = {
  ...tiersSchema,
  items: {
    ...(tiersSchema.items as Schema),
    properties: {
      ...((tiersSchema.items as Schema).properties as Schema),
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
const answered = ({ test, found }: Once, { job }: Scene, { stamp }: Snapshot): boolean => {
  const entry = job.log.findLast(
    (one) => one.did === 'tested' && one.what === test && !one.failed && mayFollow(one, stamp.at),
  );
  return entry?.found === found;
};

export const agreement: Kind = {
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
    const tiers = readTiers(raw.tiers, unit, scope);
    const conditional = (raw.tiers as { once?: Once }[]).map(({ once }) => once);
    const always = conditional.every((once) => once === undefined);
    return measuring({
      unit,
      limits: tierLines(tiers, unit),
      tiers,
      beforehand: neverRead,
      subjects: (shape, wasRead) => (of && against ? subjectsOf(shape, wasRead, of.id, [against.id]) : []),
      measure: (occasion, subject, scene, check) => {
        const all = takeAll(newestOf(occasion), subject.channels, scene, check);
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
          tiers: always
            ? tiers
            : tiers.filter((_, index) => {
                const once = conditional[index];
                return once === undefined || answered(once, scene, newestOf(occasion));
              }),
        };
      },
    });
  },
};
