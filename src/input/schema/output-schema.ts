import { acts } from '../../core/acts.ts';
import type { Schema } from '../../core/checks/kind.ts';
import { basisKinds } from '../../core/finding.ts';
import { adviceConditions } from '../../core/suspects/ranking.ts';
import {
  comparison,
  format,
  instant,
  list,
  members,
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
const number: Schema = { type: 'number' };
const amount: Schema = { type: 'number', minimum: 0 };

const nullable = (schema: Schema): Schema => ({ ...schema, type: [String(schema.type), 'null'] });

const finding = members({
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
    required: ['value', 'unit', 'expanded'],
    properties: { value: { type: 'number' }, unit: text, expanded: { type: 'number', minimum: 0 } },
  },
  limits: {
    type: ['object', 'null'],
    required: ['low', 'high', 'unit'],
    properties: { ...limitPair, unit: text },
  },
  inside: { ...chance, type: ['number', 'null'] },
  /** Coverage factor of `expanded`. */
  coverage: { type: ['number', 'null'], minimum: 2 },
  /** Whether a guard band of `expanded` was kept at the limits. */
  decision: { enum: ['guarded', 'simple', null] },
  /**
   * Of `standard`, in the unit of what was measured, of which `scatter` and `accuracy` are the two parts. Half-widths
   * of an instrument's errors are those of its text, `gain` as a fraction; fixed errors of one `offsetOf` are one error.
   */
  uncertainty: nullable(
    members({
      standard: amount,
      scatter: amount,
      accuracy: amount,
      /** The part of `accuracy` that no input brings in: a temperature, a table. */
      beside: amount,
      inputs: list(
        members({
          value: number,
          unit: text,
          sensitivity: number,
          scatter: amount,
          from: { enum: ['resolution', 'repeats'] },
          instrument: text,
          offset: amount,
          offsetOf: orNull('string'),
          gain: amount,
        }),
      ),
      /** The points of the straight line whose slope was measured; `clock` is the standard uncertainty of a time. */
      line: nullable(list(members({ time: number, clock: amount, value: number }))),
    }),
  ),
  /** Every tier, the heaviest first, in the unit of the limits. */
  tiers: list(members({ weight, limits: members(limitPair), inside: chance })),
  says: text,
  /** The word that a check has for what it found. */
  pattern: orNull('string'),
  /** The chance of each word, or of each family of patterns. */
  weights: { type: ['object', 'null'], additionalProperties: chance },
  /** Of a pattern: the signals, and each model that was fitted to them, the likeliest first. */
  fit: nullable(
    members({
      reference: number,
      signals: list(
        members({ corner: text, value: number, expected: number, spread: amount, sense: { enum: [1, -1] } }),
      ),
      models: list(
        members({
          model: text,
          family: text,
          place: orNull('string'),
          amount: number,
          bic: number,
          weight: chance,
        }),
      ),
    }),
  ),
  /** Out, and no longer shown by a newer reading without work between. */
  intermittent: { type: 'boolean' },
  basis: members({ kind: { enum: [...basisKinds] }, source: orNull('string') }),
});

const probability: Schema = { type: 'number', minimum: 0, maximum: 1 };

const ledgerLine = members({
  group: text,
  title: text,
  from: list(text),
  observed: text,
  likelihood: probability,
  rival: probability,
  points: { type: 'number' },
});

const suspect = members({
  id: text,
  title: text,
  probability,
  mode: { ...members({ id: text, title: text, probability }), type: ['object', 'null'] },
  for: list(text),
  against: list(text),
  rival: text,
  ledger: list(ledgerLine),
  /** What a wrong part loses (W); null where nothing is priced. */
  wrongPart: nullable(amount),
  /** Suspects that acting on this one puts right. */
  mends: list(text),
});

/** One piece of evidence with its likelihoods in the order of `hypotheses`. */
const evidence = members({
  group: text,
  title: text,
  from: list(text),
  observed: text,
  likelihoods: list(probability),
});

/** Whether the leading suspect's part may be ordered; null where nothing is priced or something else leads. */
const advice: Schema = {
  ...members({
    suspect: text,
    met: { type: 'boolean' },
    conditions: list(
      members({
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

const nextTest = members({
  id: text,
  title: text,
  minutes: { type: 'number', minimum: 0 },
  elapsed: { type: 'number', minimum: 0 },
  brings: { type: 'number', minimum: 0 },
  bits: { type: 'number', minimum: 0 },
  saves: orNull('number'),
  /** Where no other test may follow. */
  savesAlone: orNull('number'),
  price: nullable(amount),
  /** The probability that the repair must be confirmed by it; only the rest of the price counts. */
  neededAnyway: probability,
  outcomes: list(
    members({
      id: text,
      title: text,
      chance: probability,
      leader: text,
      probability,
      /** In the order of `hypotheses`. */
      likelihoods: list(probability),
    }),
  ),
});

const step = members({
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

/** Whether the vehicle may leave, with the reason in words. */
const release = members({
  verdict: { enum: ['do-not-drive', 'do-not-release', 'may-leave', 'not-judged'] },
  says: text,
});

const judgedJob = members({
  file: text,
  job: text,
  title: text,
  vehicle: text,
  status,
  packs: list(members({ id: text, version: text, sha256: { type: 'string', pattern: '^[0-9a-f]{64}$' } })),
  findings: list(finding),
  suspects: list(suspect),
  /** All that may be wrong: suspects alone, then two at once (`sensor.LR + battery`); priors are relative. */
  hypotheses: list(
    members({ id: text, modes: list({ type: ['string', 'null'] }), prior: amount, probability }),
  ),
  evidence: list(evidence),
  pair: { type: ['array', 'null'], items: text, minItems: 2, maxItems: 2 },
  /** What an hour of work and of waiting costs, and passing the job on (E); null where nothing is priced. */
  stakes: nullable(
    members({ rate: amount, assumed: { type: 'boolean' }, downtime: amount, escalate: amount }),
  ),
  nextTests: list(nextTest),
  advice,
  steps: list(step),
  release,
  now,
  /** Other lines that answer what is to be done now. */
  instead: list(text),
  /** Readings that hold nothing and would be worth taking. */
  worthTaking: list(members({ state: text, channels: list(text) })),
  /** What can hurt somebody, and the acts that it forbids. */
  dangers: list(
    members({
      id: text,
      forbids: list({ enum: [...acts] }),
      acknowledged: { type: 'boolean' },
      cautions: list(text),
    }),
  ),
  /** Before the work against after it; null where there was none. */
  beforeAfter: { ...members(comparison), type: ['object', 'null'] },
  /** Two snapshots that were asked for. */
  compared: { ...members({ before: text, after: text, ...comparison }), type: ['object', 'null'] },
  /** One that does not hold is a reminder. */
  holdPoints: list(
    members({
      id: text,
      title: text,
      clear: { type: 'boolean' },
      holds: { type: 'boolean' },
      reasons: list(text),
    }),
  ),
  warnings: list(text),
});

const unjudgedJob = members({
  file: text,
  job: { type: 'null' },
  problems,
});

export const outputSchema: Schema = {
  $schema: 'http://json-schema.org/draft-07/schema#',
  $id: 'output.json',
  title: 'Cornerwise machine output',
  description:
    'What check --format json prints; ndjson prints one member of jobs a line, with the format in front.',
  ...members({
    format,
    tool,
    asOf: instant,
    jobs: list({ oneOf: [judgedJob, unjudgedJob] }),
  }),
};
