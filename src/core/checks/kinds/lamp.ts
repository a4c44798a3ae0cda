import type { LampState, Weight } from '../../job.ts';
import { sceneOf } from '../../scene.ts';
import type { Kind } from '../kind.ts';
import { judgeLists, missingList } from '../lists.ts';
import { notTaken } from '../not-taken.ts';

/** Off counts only if the lamp lit at key-on: one that never lights proves nothing. */
export const lamp: Kind = {
  kind: 'lamp',
  about: 'The warning lamp after its key-on self-test.',
  properties: {
    weight: { enum: ['hold', 'look', 'note'] },
    'says-by-state': {
      type: 'object',
      additionalProperties: false,
      properties: {
        on: { type: 'string' },
        flashing: { type: 'string' },
        'no-self-test': { type: 'string' },
      },
    },
  },
  required: ['weight'],
  read: (raw, scope) => {
    const words = (raw['says-by-state'] ?? {}) as Partial<Record<LampState, string>>;
    return {
      unit: null,
      limits: [`${raw.weight}: on, flashing, or no self-test`],
      judge: (check, asked) => {
        const scene = sceneOf(asked);
        const findings = judgeLists(
          check,
          scene,
          // With the key off no lamp is lit, and that says nothing.
          (snapshot) => snapshot.lamp !== null && check.states.includes(snapshot.state),
          ({ lamp: shows }) => [
            {
              subject: 'lamp',
              verdict: shows === 'off' ? 'within' : 'out',
              weight: raw.weight as Weight,
              words:
                (shows && words[shows]) ??
                (shows === 'off' ? (scope.says.within ?? null) : (scope.says.out ?? null)),
              remarks: [],
            },
          ],
        );
        const subject = { name: 'lamp', channels: [] };
        return findings.length > 0 ? findings : [notTaken(check, scene, subject, missingList('no-lamp'))];
      },
    };
  },
};
