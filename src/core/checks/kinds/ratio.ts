import { combine } from '../../readings/estimate.ts';
import type { Kind } from '../kind.ts';
import { measuring } from '../measuring.ts';
import { missing, newestOf } from '../outcome.ts';
import { readChannel } from '../parameters.ts';
import { subjectsOf } from '../subjects.ts';
import { takeAll } from '../take.ts';
import { readTiers, tierLines, tiersSchema } from '../tiers.ts';

/**
 * A signal as a share of its own reference. Only where one instrument read both: its scale error then cancels,
 * and a module that divides by the same reference has shown the share already.
 */
export const ratio: Kind = {
  kind: 'ratio',
  about: 'A signal as a share of the reference that feeds it, both read with one instrument.',
  properties: {
    of: { type: 'string' },
    to: { type: 'string' },
    tiers: tiersSchema,
  },
  required: ['of', 'to', 'tiers', 'in'],
  read: (raw, scope) => {
    const of = readChannel(raw.of, ['of'], scope);
    const to = readChannel(raw.to, ['to'], scope);
    const tiers = readTiers(raw.tiers, '%', scope);
    return measuring({
      unit: '%',
      limits: tierLines(tiers, '%'),
      tiers,
      subjects: (shape, wasRead) => (of && to ? subjectsOf(shape, wasRead, of.id, [to.id]) : []),
      measure: (occasion, subject, scene, check) => {
        const snapshot = newestOf(occasion);
        // Each plug's own reference where it was read, else the one reading for the vehicle.
        const [signalKey = '', own = ''] = subject.channels;
        const keys = to && !snapshot.readings.has(own) ? [signalKey, to.id] : subject.channels;
        const all = takeAll(snapshot, keys, scene, check);
        if (!all.ok) return missing(all.missing);
        const [signal, reference] = all.taken;
        if (!signal || !reference) throw new Error('a ratio looks at two channels');
        const { estimate: x } = signal;
        const { estimate: y } = reference;
        if (x.instrument !== y.instrument) {
          const is = `${x.instrument} and ${y.instrument}`;
          return missing({
            why: 'condition-differs',
            condition: 'instrument',
            wants: 'one instrument for both',
            is,
          });
        }
        if (y.value <= 6 * y.offset) return missing({ why: 'reference-near-zero', channel: keys[1] ?? '' });
        return {
          taken: true,
          value: (100 * x.value) / y.value,
          unit: '%',
          spread: combine([
            { estimate: x, sensitivity: 100 / y.value },
            { estimate: y, sensitivity: (-100 * x.value) / y.value ** 2 },
          ]),
          scatterFrom: x.scatterFrom,
          count: signal.count,
          tiers,
          channels: keys,
        };
      },
    });
  },
};
