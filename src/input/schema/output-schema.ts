import { acts } from '../../core/acts.ts';
import type { Schema } from '../../core/checks/kind.ts';
import { basisKinds } from '../../core/finding.ts';
import { adviceConditions } from '../../core/suspects/ranking.ts';
import {
  closed,
  comparison,
  instant,
  list,
  now,
  orNull,
  problems,
  status,
  text,
  tool,
  waived,
  weight,
} from './output-shapes.ts';

const limitPair = { low: orNull('number'), high: orNull('number') };
const chance: Schema = { type: 'number', minimum: 0, maximum: 1 };

const finding = closed({
  id: text,
  check: text,
  snapshot: orNull('string'),
  subject: text,
  channels: list(text),
  verdict: { enum: ['within', 'out', 'too-close', 'not-taken'] },
  weight,
  current: { type: 'boolean' },
  stale: { type: 'boolean' },
  waived,
  measured: {
    type: ['object', 'null'],
    additionalProperties: false,
    required: ['value', 'unit', 'expanded'],
    properties: { value: { type: 'number' }, unit: text, expanded: { type: 'number', minimum: 0 } },
  },
  limits: {
    type: ['object', 'null'],
    additionalProperties: false,
    required: ['low', 'high', 'unit'],
    properties: { ...limitPair, unit: text },
  },
  inside: { ...chance, type: ['number', 'null'] },
  /** Coverage factor of `expanded`. */
  coverage: { type: ['number', 'null'], minimum: 2 },
  /** Every tier, the heaviest first, in the unit of the limits. */
  tiers: list(closed({ weight, limits: closed(limitPair), inside: chance })),
  says: text,
  /** The word that a check has for what it found. */
  pattern: orNull('string'),
  /** Out, and no longer shown by a newer reading without work between. */
  intermittent: { type: 'boolean' },
  basis: closed({ kind: { enum: [...basisKinds] }, source: orNull('string') }),
});

const probability: Schema = { type: 'number', minimum: 0, maximum: 1 };

const ledgerLine = closed({
  group: text,
  title: text,
  from: list(text),
  observed: text,
  likelihood: probability,
  rival: probability,
  points: { type: 'number' },
});

const suspect = closed({
  id: text,
  title: text,
  probability,
  for: list(text),
  against: list(text),
  rival: text,
  ledger: list(ledgerLine),
});

/** Whether the leading suspect's part may be ordered; null where nothing is priced or something else leads. */
const advice: Schema = {
  ...closed({
    suspect: text,
    met: { type: 'boolean' },
    conditions: list(
      closed({
        id: { enum: [...adviceConditions] },
        met: { type: 'boolean' },
        lacks: list(text),
        threshold: orNull('number'),
      }),
    ),
    wrongPart: { type: 'number', minimum: 0 },
    escalate: { type: 'number', minimum: 0 },
    rate: { type: 'number', minimum: 0 },
    rateAssumed: { type: 'boolean' },
    worthFixing: probability,
  }),
  type: ['object', 'null'],
};

const nextTest = closed({
  id: text,
  title: text,
  minutes: { type: 'number', minimum: 0 },
  elapsed: { type: 'number', minimum: 0 },
  brings: { type: 'number', minimum: 0 },
  bits: { type: 'number', minimum: 0 },
  saves: orNull('number'),
});

const step = closed({
  id: text,
  title: text,
  state: { enum: ['ready', 'waiting', 'done', 'not-needed'] },
  waitsFor: list(text),
  because: text,
  minutes: { type: 'number', minimum: 0 },
  elapsed: { type: 'number', minimum: 0 },
  /** When it is due, for one that is listed and holds nothing. */
  due: { ...instant, type: ['string', 'null'] },
  needs: orNull('string'),
  cautions: list(text),
});

const judgedJob = closed({
  file: text,
  job: text,
  title: text,
  vehicle: text,
  status,
  packs: list(closed({ id: text, version: text, sha256: { type: 'string', pattern: '^[0-9a-f]{64}$' } })),
  findings: list(finding),
  suspects: list(suspect),
  hypotheses: list(closed({ id: text, probability })),
  pair: { type: ['array', 'null'], items: text, minItems: 2, maxItems: 2 },
  nextTests: list(nextTest),
  advice,
  steps: list(step),
  now,
  /** Other lines that answer what is to be done now. */
  instead: list(text),
  /** Readings that hold nothing and would be worth taking. */
  worthTaking: list(closed({ state: text, channels: list(text) })),
  /** What can hurt somebody, and the acts that it forbids. */
  dangers: list(
    closed({
      id: text,
      forbids: list({ enum: [...acts] }),
      acknowledged: { type: 'boolean' },
      cautions: list(text),
    }),
  ),
  /** Before the work against after it; null where there was none. */
  beforeAfter: { ...closed(comparison), type: ['object', 'null'] },
  /** Two snapshots that were asked for. */
  compared: { ...closed({ before: text, after: text, ...comparison }), type: ['object', 'null'] },
  /** One that does not hold is a reminder. */
  holdPoints: list(
    closed({
      id: text,
      title: text,
      clear: { type: 'boolean' },
      holds: { type: 'boolean' },
      reasons: list(text),
    }),
  ),
  warnings: list(text),
});

const unjudgedJob = closed({
  file: text,
  job: { type: 'null' },
  problems,
});

export const outputSchema: Schema = {
  $schema: 'http://json-schema.org/draft-07/schema#',
  $id: 'output.json',
  title: 'Cornerwise machine output',
  description: 'What check --format json prints; ndjson prints one member of jobs a line.',
  ...closed({
    tool,
    asOf: instant,
    jobs: list({ oneOf: [judgedJob, unjudgedJob] }),
  }),
};
