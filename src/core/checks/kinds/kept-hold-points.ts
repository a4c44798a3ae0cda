import type { Weight } from '../../job.ts';
import { findingOf } from '../finding-base.ts';
import { judgesNoReading, type Kind } from '../kind.ts';

interface KeptParameters {
  readonly weight: Weight;
}

/** An order, a release or a closed job that its hold point did not allow, and that does not say why. */
export const keptHoldPoints: Kind<KeptParameters> = {
  ...judgesNoReading,
  kind: 'kept-hold-points',
  about:
    'Orders, releases and closed jobs in the log against the hold points that were not clear at the time.',
  properties: { weight: { enum: ['hold', 'look', 'note'] } },
  required: ['weight'],
  afterSteps: false,
  read: (raw) => ({ weight: raw.weight as Weight }),
  limits: ({ weight }) => [`${weight}: an entry against a hold point that was not clear, without despite`],
  judge: ({ check }, { weight }, context) =>
    context.against.map(({ entry: { did, what }, point }) =>
      findingOf(check, context, [did, what].filter((part) => part !== null).join(' '), null, {
        channels: [],
        verdict: 'out',
        weight,
        missing: null,
        words: check.says.out ?? null,
        remarks: [{ kind: 'hold-point', point }],
        basis: check.basis,
      }),
    ),
};
