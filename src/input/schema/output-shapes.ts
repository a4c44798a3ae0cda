import type { Schema } from '../../core/checks/kind.ts';
import { actors, nowKinds } from '../../core/now/now.ts';

/** An object with just these members, all of which are there. */
export const closed = (properties: Readonly<Record<string, Schema>>): Schema => ({
  type: 'object',
  additionalProperties: false,
  required: Object.keys(properties),
  properties,
});

export const list = (items: Schema): Schema => ({ type: 'array', items });
export const text: Schema = { type: 'string' };
export const orNull = (type: string): Schema => ({ type: [type, 'null'] });
export const weight: Schema = { enum: ['hold', 'look', 'note'] };
export const status: Schema = { enum: ['open', 'waiting', 'closed'] };
export const instant: Schema = { type: 'string', format: 'date-time' };
export const tool: Schema = closed({ name: { const: 'cornerwise' }, version: text });

/** A waiver in force; null without one. */
export const waived: Schema = {
  ...closed({ reason: text, by: text, until: text }),
  type: ['object', 'null'],
};

/** What to do now; without a command where there is nothing to type. */
export const now: Schema = closed({
  kind: { enum: [...nowKinds] },
  id: orNull('string'),
  title: text,
  because: text,
  minutes: { type: 'number', minimum: 0 },
  elapsed: { type: 'number', minimum: 0 },
  cautions: list(text),
  command: orNull('string'),
  for: { enum: [...actors] },
});

const problem: Schema = {
  type: 'object',
  additionalProperties: false,
  required: ['code', 'message', 'line', 'column', 'hint'],
  properties: {
    code: text,
    message: text,
    line: orNull('integer'),
    column: orNull('integer'),
    hint: orNull('string'),
    /** Only where another file than the job is at fault: a rule pack or the shop file. */
    file: text,
  },
};

/** Why a file could not be judged. */
export const problems: Schema = { type: 'array', minItems: 1, items: problem };
