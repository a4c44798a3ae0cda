import type { Missing } from '../../finding.ts';
import type { LampState, Snapshot, Weight } from '../../job.ts';
import { judgesNoReading, type Kind } from '../kind.ts';
import { judgeLists, missingList } from '../lists.ts';
import { notTaken } from '../not-taken.ts';

interface LampParameters {
  readonly weight: Weight;
  /** What is said of each state of the lamp, where it is not what the check says. */
  readonly words: Partial<Readonly<Record<LampState, string>>>;
}

const notFitted: Missing = { why: 'vehicle-differs', what: 'lamp', wants: 'fitted', is: 'not-fitted' };

/** `off` counts as good only where the lamp lit at key-on: a lamp that never lights proves nothing. */
export const lamp: Kind<LampParameters> = {
  ...judgesNoReading,
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
  afterSteps: false,
  read: (raw) => ({
    weight: raw.weight as Weight,
    words: (raw['says-by-state'] ?? {}) as LampParameters['words'],
  }),
  limits: ({ weight }) => [`${weight}: on, flashing, or no self-test`],
  judge: ({ check }, { weight, words }, context) => {
    const subject = { name: 'lamp', channels: [] };
    // With the key off no lamp is lit, so only the check's own states count.
    const isLook = (snapshot: Snapshot): boolean =>
      snapshot.lamp !== null && check.states.includes(snapshot.state);
    if (context.job.snapshots.findLast(isLook)?.lamp === 'not-fitted')
      return [notTaken(check, context, subject, notFitted)];
    const findings = judgeLists(
      check,
      context,
      (snapshot) => isLook(snapshot) && snapshot.lamp !== 'not-fitted',
      ({ lamp: shows }) => [
        {
          subject: 'lamp',
          verdict: shows === 'off' ? 'within' : 'out',
          weight,
          words:
            (shows && words[shows]) ??
            (shows === 'off' ? (check.says.within ?? null) : (check.says.out ?? null)),
          remarks: [],
        },
      ],
    );
    return findings.length > 0 ? findings : [notTaken(check, context, subject, missingList('no-lamp'))];
  },
};
