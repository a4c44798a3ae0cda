import { acts } from '../acts.ts';
import { type Basis, basisKinds } from '../finding.ts';
import type { Flaw, Path } from '../flaw.ts';
import { conditionWords, layouts, states } from '../job.ts';
import type { Schema } from './kind.ts';

export const saysSchema: Schema = {
  type: 'object',
  additionalProperties: false,
  properties: {
    low: { type: 'string' },
    high: { type: 'string' },
    out: { type: 'string' },
    within: { type: 'string' },
  },
};

export const basisSchema: Schema = {
  type: 'object',
  additionalProperties: false,
  required: ['kind'],
  properties: {
    kind: { enum: [...basisKinds] },
    title: { type: 'string' },
    issuer: { type: 'string' },
    clause: { type: 'string' },
    note: { type: 'string' },
  },
};

interface RawBasis {
  readonly kind: Basis['kind'];
  readonly title?: string;
  readonly issuer?: string;
  readonly clause?: string;
  readonly note?: string;
}

/** Reads a basis; a published one must name title, issuer and clause. */
export const readBasis = (raw: RawBasis, path: Path, flaw: (flaw: Flaw) => void): Basis => {
  if (raw.kind === 'published') {
    for (const key of ['title', 'issuer', 'clause'] as const) {
      if (raw[key] === undefined) {
        const hint = `add ${key}: …, or say common-practice or from-memory`;
        flaw({ code: 'missing-key', path, message: `a published basis names its ${key}`, hint });
      }
    }
    return { kind: 'published', source: [raw.issuer, raw.title, raw.clause].filter(Boolean).join(', ') };
  }
  return { kind: raw.kind, source: raw.note ?? null };
};

export const conditionsSchema: Schema = {
  type: 'object',
  additionalProperties: false,
  properties: Object.fromEntries(
    Object.entries(conditionWords).map(([name, words]) => [name, { enum: [...words] }]),
  ),
};

const words: Schema = { type: 'array', items: { type: 'string' }, minItems: 1 };

/** What a danger forbids; `true` for every act. */
export const dangerParts: Readonly<Record<string, Schema>> = {
  forbids: { type: 'array', items: { enum: [...acts] }, minItems: 1 },
  'after-retake': { type: 'boolean' },
  cautions: { type: 'array', items: { type: 'string' } },
};

/** That what a check finds makes some work unsafe. */
const dangerSchema: Schema = {
  type: ['boolean', 'object'],
  additionalProperties: false,
  properties: dangerParts,
  'x-expected': 'true, or what it forbids, such as {forbids: [drive, crank]}',
};

/** The parameters that every kind of check has. */
export const commonProperties: Readonly<Record<string, Schema>> = {
  id: {
    type: 'string',
    pattern: '^[a-z][a-z0-9-]*$',
    'x-expected': 'a name in small letters, such as working-band',
  },
  kind: { type: 'string' },
  title: { type: 'string' },
  in: { type: 'array', items: { enum: [...states] }, minItems: 1 },
  needs: conditionsSchema,
  unless: conditionsSchema,
  only: {
    type: 'object',
    additionalProperties: false,
    properties: { system: words, 'sensor-signal': words, battery: words, charging: words },
  },
  layouts: { type: 'array', items: { enum: [...layouts] }, minItems: 1 },
  decision: { enum: ['guarded', 'simple'] },
  basis: basisSchema,
  says: saysSchema,
  wanted: { enum: ['always', 'in-test'] },
  concerns: {
    type: 'object',
    additionalProperties: false,
    required: ['did'],
    properties: {
      did: { type: ['string', 'array'], items: { type: 'string' } },
      what: { type: ['string', 'array'], items: { type: 'string' } },
    },
  },
  moment: { type: 'boolean' },
  /** An `out` that came and went without work stays evidence. */
  intermittent: { type: 'boolean' },
  danger: dangerSchema,
};

export const commonRequired = ['id', 'kind', 'title', 'basis'] as const;
