import type { Schema } from '../../core/checks/kind.ts';
import { codeMeanings, layouts, states } from '../../core/job.ts';
import { spaces } from '../../core/suspects/spaces.ts';
import { strengths } from '../../core/suspects/strengths.ts';
import { amount, list, map, name, oneOf, text } from './schema-shapes.ts';

const minutes: Schema = { type: 'number', minimum: 0 };
const nameOrList: Schema = { type: ['string', 'array'], items: { type: 'string' } };

/** A word or a number; which words there are the reader says, which can suggest one. */
const strength: Schema = {
  type: ['string', 'number'],
  'x-expected': `a word such as ${Object.keys(strengths).join(', ')}, or a number from 0 to 1`,
};

/** A test and what it found, a group of readings and what it shows, or either. */
const confirmation: Schema = map({ test: name, found: nameOrList, group: name, shows: name });

/** What a test has beside its title and minutes, so that it tells suspects apart. */
export const testTermsSchemas: Readonly<Record<string, Schema>> = {
  group: name,
  'set-up': map({ id: name, minutes }, ['id', 'minutes']),
  brings: map({ minutes }, ['minutes']),
  depends: list(name),
  after: list(confirmation),
  layouts: list(oneOf(layouts), 1),
};

/** P(this outcome | suspect) by suspect, and for all others. */
export const outcomeHowSchema: Schema = { type: 'object', additionalProperties: strength };

const source: Schema = map({
  finding: name,
  subject: name,
  in: list(oneOf(states), 1),
  corners: list(name, 1),
  'code-means': list(oneOf(codeMeanings), 1),
});

/** The sections of a pack that are about suspects. */
export const suspectSchemas: Readonly<Record<string, Schema>> = {
  'something-else': map(
    {
      share: { type: 'number', 'x-expected': 'a share such as 0.07' },
    },
    ['share'],
  ),
  escalate: map({ amount }, ['amount']),
  evidence: list(
    map(
      {
        id: name,
        title: text,
        values: oneOf(Object.keys(spaces)),
        levelled: { type: 'boolean' },
        refines: { type: 'boolean' },
        sources: list(source, 1),
      },
      ['id', 'title', 'sources'],
    ),
  ),
  suspects: list(
    map(
      {
        id: name,
        per: oneOf(['corner']),
        title: name,
        layouts: list(oneOf(layouts), 1),
        prior: { type: 'number', minimum: 0, 'x-expected': 'a weight such as 4' },
        'wrong-part': map({ amount, minutes }, ['amount', 'minutes']),
        confirm: list(confirmation),
        component: name,
        part: { type: 'boolean' },
        expects: list(map({ group: name, shows: name, how: strength }, ['group', 'shows', 'how'])),
      },
      ['id', 'title', 'prior', 'wrong-part'],
    ),
  ),
};
