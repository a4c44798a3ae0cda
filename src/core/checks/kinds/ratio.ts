import { combine } from '../../readings/estimate.ts';
import { measuring } from '../measuring.ts';
import type { Measured } from '../measuring-parts.ts';
import { missing, newestOf } from '../outcome.ts';
import { readChannel } from '../parameters.ts';
import { subjectsOf } from '../subjects.ts';
import { takeAll } from '../take.ts';
import { readTiers, tiersSchema } from '../tiers.ts';

interface Ratio extends Measured {
  readonly of: string;
  readonly to: string;
}

/**
 * A signal as a share of its own reference. Only where one instrument read both: its scale error then cancels,
 * and a module that divides by the same reference has shown the share already.
 */
export const ratio = measuring<Ratio>({
  kind: 'ratio',
  about: 'A signal as a share of the reference that feeds it, both read with one instrument.',
  properties: {
    of: { type: 'string' },
    to: { type: 'string' },
    tiers: tiersSchema,
  },
  required: ['of', 'to', 'tiers', 'in'],
  read: (raw, scope) => ({
    unit: '%',
    of: readChannel(raw.of, ['of'], scope)?.id ?? '',
    to: readChannel(raw.to, ['to'], scope)?.id ?? '',
    tiers: readTiers(raw.tiers, '%', scope),
  }),
  subjects: ({ of, to }, shape, wasRead) => subjectsOf(shape, wasRead, of, [to]),
  measure: (occasion, subject, context, check, { to, tiers }) => {
    const snapshot = newestOf(occasion);
    // Each plug's own reference where it was read, else the one reading for the vehicle.
    const [signalKey = '', own = ''] = subject.channels;
    const keys = snapshot.readings.has(own) ? subject.channels : [signalKey, to];
    const all = takeAll(snapshot, keys, context, check);
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
