import type { Weight } from '../../job.ts';
import { findingOf } from '../finding-base.ts';
import { judgesNoReading, type Kind } from '../kind.ts';

interface EquipmentParameters {
  readonly weight: Weight;
}

/** A step that no equipment of the shop can run is better known before the work than after it. */
export const equipment: Kind<EquipmentParameters> = {
  ...judgesNoReading,
  kind: 'equipment',
  about: 'Capabilities that outstanding steps need and that no equipment of the shop file has.',
  properties: { weight: { enum: ['hold', 'look', 'note'] } },
  required: ['weight'],
  afterSteps: true,
  read: (raw) => ({ weight: raw.weight as Weight }),
  limits: ({ weight }) => [`${weight}: an outstanding step that no equipment can run`],
  judge: ({ check }, { weight }, context) => {
    const lacking = context.steps.filter(({ unequipped }) => unequipped);
    const capabilities = [...new Set(lacking.map(({ needs }) => needs ?? ''))];
    return capabilities.map((capability) => {
      const steps = lacking.filter(({ needs }) => needs === capability).map(({ title }) => title);
      return findingOf(check, context, capability, null, {
        channels: [],
        verdict: 'out',
        weight,
        missing: null,
        words: check.says.out ?? null,
        remarks: [{ kind: 'equipment', steps }],
        basis: check.basis,
      });
    });
  },
};
