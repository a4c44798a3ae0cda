import { acts } from '../../core/acts.ts';
import { dangerParts } from '../../core/checks/common.ts';
import type { Schema } from '../../core/checks/kind.ts';
import { conditionWords, states } from '../../core/job.ts';
import { list, map, name, oneOf } from './schema-shapes.ts';

/** Acts that a test or a step involves. */
export const actList: Schema = list(oneOf(acts), 1);

/** The sections of a pack that say what is dangerous, and what is worth reading before any test. */
export const dangerSchemas: Readonly<Record<string, Schema>> = {
  dangers: list(map({ of: name, ...dangerParts }, ['of'])),
  'act-uses': list(map({ act: oneOf(acts), tests: list(name), steps: list(name) }, ['act'])),
  asks: list(
    map(
      {
        id: name,
        title: name,
        read: list(name, 1),
        again: list(name, 1),
        conditions: list(oneOf(Object.keys(conditionWords))),
        in: oneOf(states),
        when: { $ref: '#/definitions/condition' },
      },
      ['id', 'title', 'in', 'when'],
    ),
  ),
};
