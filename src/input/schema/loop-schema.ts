import type { Schema } from '../../core/checks/kind.ts';
import { conditionWords } from '../../core/job.ts';
import { list, map, name, oneOf } from './schema-shapes.ts';

/** What a step of the repair loop has beside an ordinary one. */
export const loopStepSchemas: Readonly<Record<string, Schema>> = {
  /** One step for every confirmed fault, or for every component that was worked on. */
  each: oneOf(['fault', 'work']),
  elapsed: { type: 'number', minimum: 0 },
  /** Listed with the day when it is due, and holds nothing. */
  recheck: map({ days: { type: 'integer', minimum: 1 } }, ['days']),
  /** Waits for access that is paid for. */
  'paid-access': { type: 'boolean' },
  'cautions-for': list(
    map({ components: list(name, 1), cautions: list(name, 1) }, ['components', 'cautions']),
  ),
};

/** Conditions with the words that each may have: `{levelling: [disabled, faulted]}`. */
export const statedConditions: Schema = map(
  Object.fromEntries(
    Object.entries(conditionWords).map(([condition, words]) => [condition, list(oneOf(words), 1)]),
  ),
);
