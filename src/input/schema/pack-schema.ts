import { basisSchema, commonProperties, commonRequired } from '../../core/checks/common.ts';
import type { Kind, Schema } from '../../core/checks/kind.ts';
import { kinds } from '../../core/checks/kinds/index.ts';
import { codeMeanings, layouts, states } from '../../core/job.ts';
import type { QuantityKind } from '../../core/readings/units.ts';
import { marks, partQuestions } from '../../core/steps/condition.ts';
import { actList, dangerSchemas } from './danger-schema.ts';
import { loopStepSchemas, statedConditions } from './loop-schema.ts';
import {
  conditions,
  instruments,
  list,
  logEntry,
  map,
  name,
  oneOf,
  quantity,
  snapshotProperties,
  text,
  time,
} from './schema-shapes.ts';
import { outcomeHowSchema, suspectSchemas, testTermsSchemas } from './suspects-schema.ts';

/** What a channel can measure. */
export const channelQuantities = [
  'voltage',
  'current',
  'resistance',
  'pressure',
  'temperature',
  'length',
  'ratio',
  'time',
] as const satisfies readonly QuantityKind[];

const weight = oneOf(['hold', 'look', 'note']);

const wordOrList: Schema = { type: ['string', 'array'], items: { type: 'string' } };
const verbOrList: Schema = { type: ['string', 'array'], items: { type: 'string' } };

/** One log pattern; whether its verbs exist is told by the reader, which can suggest one. */
const pattern: Schema = map({ did: verbOrList, what: wordOrList }, ['did']);

/**
 * A condition: `all`, `any` or `not`, or one fact. Its parts are read in plain code, since a schema's errors about
 * a choice of shapes help nobody.
 */
const condition: Schema = {
  type: 'object',
  'x-expected': 'all, any, not, or one fact such as {did: replaced, what: sensor}',
  properties: {
    all: { type: 'array', items: { $ref: '#/definitions/condition' } },
    any: { type: 'array', items: { $ref: '#/definitions/condition' } },
    not: { $ref: '#/definitions/condition' },
    did: verbOrList,
    what: wordOrList,
    finding: name,
    verdict: { type: ['string', 'array'], items: { type: 'string' } },
    subject: name,
    'no-finding': map({
      weight,
      packs: list(name),
      'except-means': list(oneOf(codeMeanings)),
      'except-checks': list(name),
      stale: oneOf(['left-out']),
    }),
    'code-means': list(oneOf(codeMeanings), 1),
    taken: { type: ['string', 'array'], items: oneOf(states) },
    when: oneOf(marks),
    'code-list': oneOf([...marks, 'ever']),
    state: oneOf(states),
    conditions,
    'where-read': list(name, 1),
    in: list(oneOf(states), 1),
    layout: list(oneOf(layouts), 1),
    step: wordOrList,
    steps: map({ except: list(name) }),
    cost: oneOf(['authorised', 'within-authorised']),
    part: oneOf(partQuestions),
    evidence: oneOf(['fresh']),
    waivers: oneOf(['none-ended']),
    access: name,
    stated: statedConditions,
    newest: { type: 'boolean' },
    moved: name,
    over: { type: 'number', minimum: 0 },
    faults: oneOf(['none', 'confirmed']),
    proof: oneOf(['complete']),
  },
  additionalProperties: false,
};

/** The flat schema of one kind's checks: what all share and what it adds. */
export const checkSchema = (kind: Kind): Schema => ({
  type: 'object',
  additionalProperties: false,
  required: [...commonRequired, ...kind.required],
  properties: { ...commonProperties, ...kind.properties, kind: { const: kind.kind } },
});

/** What a check must have before its kind is known. */
const anyCheck: Schema = {
  type: 'object',
  required: ['id', 'kind'],
  properties: { id: { type: 'string' }, kind: oneOf(kinds.map(({ kind }) => kind)) },
};

const givenSnapshot = { ...snapshotProperties };

const proof: Schema = map(
  {
    says: text,
    with: list(name),
    'as-of': time,
    given: map({
      ...givenSnapshot,
      vehicle: { type: 'object' },
      snapshots: list({ type: 'object' }),
      log: list(logEntry),
      instruments,
      costs: { type: 'object' },
      equipment: list({ type: 'object' }),
    }),
    expect: {
      type: 'object',
      additionalProperties: { type: 'object', additionalProperties: { type: 'string' } },
    },
  },
  ['given', 'expect'],
);

const checkName: Schema = {
  type: 'string',
  pattern: '^[a-z][a-z0-9-]*/[a-z][a-z0-9-]*$',
  'x-expected': 'a pack and a check, such as position-signals/rails',
};

const packProperties: Readonly<Record<string, Schema>> = {
  pack: {
    ...name,
    pattern: '^[a-z][a-z0-9-]*$',
    'x-expected': 'a name in small letters, such as position-signals',
  },
  version: { type: 'string', pattern: '^\\d+\\.\\d+\\.\\d+$', 'x-expected': 'a version such as 1.0.0' },
  title: name,
  changes: text,
  'minutes-basis': basisSchema,
  /** Whether checks take a reading that jumps as its middle with half its span as scatter. */
  'jumping-readings': oneOf(['taken']),
  components: list(map({ id: name, per: oneOf(['corner', 'axle', 'both']), title: name }, ['id', 'title'])),
  channels: list(
    map(
      {
        id: name,
        per: oneOf(['corner', 'either']),
        title: name,
        quantity: oneOf(channelQuantities),
        unit: name,
        by: name,
        depends: list(name),
        accuracy: { ...text, 'x-expected': 'an accuracy such as 1.5 % + 0.1 V' },
        unjudged: text,
        possible: {
          ...list(quantity, 2),
          maxItems: 2,
          'x-expected': 'the lowest and the highest reading that there can be, such as [0.05 A, 80 A]',
        },
        minutes: { type: 'number', minimum: 0 },
        cautions: list(name),
      },
      ['id', 'title', 'quantity', 'unit', 'by', 'depends'],
    ),
  ),
  checks: list(anyCheck),
  cautions: list(map({ id: name, text }, ['id', 'text'])),
  steps: list(
    map(
      {
        id: name,
        title: name,
        needs: name,
        when: { $ref: '#/definitions/condition' },
        after: list(name),
        behind: name,
        'answered-by': list(pattern),
        'answered-if': { $ref: '#/definitions/condition' },
        'undone-by': list(pattern),
        'undone-if': { $ref: '#/definitions/condition' },
        minutes: { type: 'number', minimum: 0 },
        ...loopStepSchemas,
        points: list(text),
        cautions: list(name),
        acts: actList,
      },
      ['id', 'title', 'minutes'],
    ),
  ),
  'hold-points': list(
    map(
      {
        id: name,
        title: name,
        when: { $ref: '#/definitions/condition' },
        'clear-when': { $ref: '#/definitions/condition' },
        cautions: list(name),
      },
      ['id', 'title', 'clear-when'],
    ),
  ),
  tests: list(
    map(
      {
        id: name,
        per: oneOf(['corner', 'axle']),
        title: name,
        minutes: { type: 'number', minimum: 0 },
        outcomes: list(map({ id: name, title: name, how: outcomeHowSchema }, ['id', 'title']), 2),
        points: list(text),
        cautions: list(name),
        acts: actList,
        ...testTermsSchemas,
      },
      ['id', 'title', 'minutes', 'outcomes'],
    ),
  ),
  always: list(name),
  rechecks: list(checkName),
  ...dangerSchemas,
  renames: list(map({ from: checkName, to: checkName }, ['from', 'to'])),
  'suspects-basis': basisSchema,
  ...suspectSchemas,
  proofs: list(proof),
};

const head: Schema = {
  $schema: 'http://json-schema.org/draft-07/schema#',
  title: 'Cornerwise rule pack',
  description: 'Channels, checks, steps, hold points and tests as data. A published version never changes.',
};

/** What the program validates first; each check then meets the schema of its own kind. */
export const packSchema: Schema = {
  ...head,
  $id: 'pack.json',
  definitions: { condition },
  ...map(packProperties, ['pack', 'version', 'title']),
};

/** The same with the kinds spelled out, for editors and `cornerwise schema pack`. */
export const packSchemaForEditors: Schema = {
  ...packSchema,
  ...map(
    {
      ...packProperties,
      checks: list({
        ...anyCheck,
        allOf: kinds.map((kind) => ({
          if: { properties: { kind: { const: kind.kind } } },
          // biome-ignore lint/suspicious/noThenProperty: a keyword of JSON Schema
          then: checkSchema(kind),
        })),
      }),
    },
    ['pack', 'version', 'title'],
  ),
};
