import type { Schema } from '../../core/checks/kind.ts';
import { codeMeanings, codePlaces, layouts, type SymptomPart, states, symptomWords } from '../../core/job.ts';
import { spaces } from '../../core/suspects/evidence/spaces.ts';
import { wantedFigures } from '../../core/suspects/model.ts';
import { strengths } from '../../core/suspects/strengths.ts';
import { amount, list, map, name, oneOf, text } from './schema-shapes.ts';

const minutes: Schema = { type: 'number', minimum: 0 };
const nameOrList: Schema = { type: ['string', 'array'], items: { type: 'string' } };

/** A word or a number; which words there are the reader says, which can suggest one. */
const strength: Schema = {
  type: ['string', 'number'],
  'x-expected': `a word such as ${Object.keys(strengths).join(', ')}, or a number from 0 to 1`,
};

/** A test and what it found, a group of readings and what it shows, or either; and others that do as well. */
const single = { test: name, found: nameOrList, group: name, shows: nameOrList };
const confirmation: Schema = map({ ...single, or: list(map(single), 1) });

/** What a test has beside its title and minutes, so that it tells suspects apart. */
export const testTermsSchemas: Readonly<Record<string, Schema>> = {
  group: name,
  'set-up': map({ id: name, minutes }, ['id', 'minutes']),
  brings: map({ minutes }, ['minutes']),
  elapsed: minutes,
  wants: list(oneOf(wantedFigures), 1),
  depends: list(name),
  after: list(confirmation),
  'not-while': list(confirmation),
  layouts: list(oneOf(layouts), 1),
};

/** P(this outcome | suspect) by suspect, and for all others. */
export const outcomeHowSchema: Schema = { type: 'object', additionalProperties: strength };

/** Words of a driver, by the part of a symptom that says them. */
const words: Schema = map(
  Object.fromEntries(
    (Object.keys(symptomWords) as SymptomPart[]).map((part) => [part, list(oneOf(symptomWords[part]), 1)]),
  ),
);

const source: Schema = map({
  finding: name,
  subject: name,
  in: list(oneOf(states), 1),
  corners: list(name, 1),
  'code-means': list(oneOf(codeMeanings), 1),
  at: list(oneOf(codePlaces), 1),
  'code-corners': list(oneOf(codeMeanings), 1),
  symptom: oneOf(Object.keys(symptomWords)),
  is: list(name, 1),
  said: name,
  of: words,
  'symptom-corners': words,
});

/** What a suspect shows in the groups of evidence. */
const signs: Schema = list(
  map(
    {
      group: name,
      shows: nameOrList,
      how: strength,
      levelling: oneOf(['active', 'off']),
      at: list(oneOf(['front', 'rear', 'other']), 1),
    },
    ['group', 'shows', 'how'],
  ),
);

/** The sections of a pack that are about suspects. */
export const suspectSchemas: Readonly<Record<string, Schema>> = {
  'something-else': map(
    {
      share: { type: 'number', 'x-expected': 'a share such as 0.07' },
    },
    ['share'],
  ),
  escalate: map({ amount }, ['amount']),
  'usual-rate': map({ amount }, ['amount']),
  downtime: map({ amount }, ['amount']),
  evidence: list(
    map(
      {
        id: name,
        title: text,
        per: oneOf(['corner', 'axle']),
        values: {
          type: ['string', 'array'],
          items: { type: 'string', minLength: 1 },
          'x-expected': `one of ${Object.keys(spaces).join(', ')}, or a list of words, the good one first`,
        },
        levelled: { type: 'boolean' },
        refines: { type: 'boolean' },
        follows: list(name, 1),
        'by-chance': { type: 'number', minimum: 0, maximum: 1, 'x-expected': 'a share such as 0.3' },
        sources: list(source, 1),
      },
      ['id', 'title', 'sources'],
    ),
  ),
  suspects: list(
    map(
      {
        id: name,
        per: oneOf(['corner', 'axle']),
        'raised-by': list(name, 1),
        raise: { type: 'number', minimum: 1, 'x-expected': 'a factor such as 5' },
        repair: oneOf(['none']),
        inspect: map({ minutes, sees: strength }),
        title: name,
        layouts: list(oneOf(layouts), 1),
        prior: { type: 'number', minimum: 0, 'x-expected': 'a weight such as 4' },
        'wrong-part': map({ amount, minutes }, ['amount', 'minutes']),
        confirm: list(confirmation),
        component: name,
        part: { type: 'boolean' },
        /** Whether the part is coded to its vehicle, so that it cannot go back. */
        coded: { type: 'boolean' },
        expects: signs,
        modes: list(
          map(
            {
              id: name,
              title: text,
              per: oneOf(['corner']),
              share: { type: 'number', minimum: 0, maximum: 1, 'x-expected': 'a share such as 0.3' },
              expects: signs,
            },
            ['id', 'title', 'share'],
          ),
          2,
        ),
      },
      ['id', 'title', 'prior', 'wrong-part'],
    ),
  ),
};
