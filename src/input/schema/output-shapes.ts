import type { Schema } from '../../core/checks/kind.ts';
import { states } from '../../core/job.ts';
import { standings } from '../../core/loop/compare.ts';
import { actors, nowKinds } from '../../core/now/now.ts';

/** An object with these members, all of which are there; a later version may know more. */
export const members = (properties: Readonly<Record<string, Schema>>): Schema => ({
  type: 'object',
  required: Object.keys(properties),
  properties,
});

export const list = (items: Schema): Schema => ({ type: 'array', items });
export const text: Schema = { type: 'string' };
export const orNull = (type: string): Schema => ({ type: [type, 'null'] });
export const weight: Schema = { enum: ['hold', 'look', 'note'] };
export const status: Schema = { enum: ['open', 'waiting', 'closed'] };
export const instant: Schema = { type: 'string', format: 'date-time' };
export const format: Schema = { const: 1 };
export const tool: Schema = members({ name: { const: 'cornerwise' }, version: text });

/** A waiver in force; null without one. */
export const waived: Schema = {
  ...members({ reason: text, by: text, until: text }),
  type: ['object', 'null'],
};

const measured: Schema = members({
  value: { type: 'number' },
  unit: text,
  expanded: { type: 'number', minimum: 0 },
});

const readAt: Schema = {
  ...members({
    value: { type: 'number' },
    unit: text,
    expanded: { type: 'number', minimum: 0 },
    snapshot: text,
  }),
  type: ['object', 'null'],
};

const verdict: Schema = { enum: ['within', 'out', 'too-close', 'not-taken', null] };

/** Readings and checks side by side; how a reading stands is null where no check judges it alone. */
export const comparison = {
  readings: list(
    members({
      channel: text,
      state: { enum: [...states] },
      before: readAt,
      after: readAt,
      change: { ...measured, type: ['object', 'null'] },
      standing: { enum: [...standings, null] },
    }),
  ),
  findings: list(
    members({
      check: text,
      title: text,
      subject: text,
      state: { enum: [...states, null] },
      before: verdict,
      after: verdict,
      standing: { enum: [...standings] },
    }),
  ),
};

/** What to do now; without a command where there is nothing to type. */
export const now: Schema = members({
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
