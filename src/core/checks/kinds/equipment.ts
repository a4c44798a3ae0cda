import type { Weight } from '../../job.ts';
import { sceneOf } from '../../scene.ts';
import { findingOf } from '../finding-base.ts';
import type { Kind } from '../kind.ts';

/** A step that no equipment of the shop can run is better known before the work than after it. */
export const equipment: Kind = {
  kind: 'equipment',
  about: 'Capabilities that outstanding steps need and that no equipment of the shop file has.',
  properties: { weight: { enum: ['hold', 'look', 'note'] } },
  required: ['weight'],
  read: (raw, scope) => ({
    unit: null,
    limits: [`${raw.weight}: an outstanding step that no equipment can run`],
    afterSteps: true,
    judge: (check, asked) => {
      const scene = sceneOf(asked);
      const lacking = scene.steps.filter(({ unequipped }) => unequipped);
      const capabilities = [...new Set(lacking.map(({ needs }) => needs ?? ''))];
      return capabilities.map((capability) => {
        const steps = lacking.filter(({ needs }) => needs === capability).map(({ title }) => title);
        return findingOf(check, scene, capability, null, {
          channels: [],
          verdict: 'out',
          weight: raw.weight as Weight,
          missing: null,
          words: scope.says.out ?? null,
          remarks: [{ kind: 'equipment', steps }],
          basis: check.basis,
        });
      });
    },
  }),
};
