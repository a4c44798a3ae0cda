import type { Schema } from '../../core/checks/kind.ts';
import {
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

const count: Schema = { type: 'integer', minimum: 0 };
const counts = (...names: readonly string[]): Schema =>
  members(Object.fromEntries(names.map((name) => [name, count])));

const finding = members({
  id: text,
  state: orNull('string'),
  title: text,
  verdict: { enum: ['out', 'too-close'] },
  weight,
  says: text,
  waived,
});

const holdPoint = members({ id: text, title: text, clear: { type: 'boolean' }, reason: orNull('string') });

const end = members({
  kind: { enum: ['waiver', 'access'] },
  what: text,
  at: instant,
  until: orNull('string'),
  reason: orNull('string'),
  ended: { type: 'boolean' },
  soon: { type: 'boolean' },
});

const change: Schema = {
  ...members({ kind: { enum: ['new', 'changed', 'unchanged'] }, says: list(text) }),
  type: ['object', 'null'],
};

const judged = members({
  file: text,
  job: text,
  title: text,
  vehicle: text,
  status,
  asOf: instant,
  opened: instant,
  zone: text,
  daysOpen: count,
  level: { enum: ['hold', 'look', 'note', null] },
  fails: { type: 'boolean' },
  findings: list(finding),
  holdPoints: list(holdPoint),
  steps: list(members({ id: text, title: text, state: { enum: ['ready', 'waiting'] } })),
  now,
  waitsFor: list(text),
  ends: list(end),
  warnings: list(text),
  packs: list(members({ id: text, version: text, sha256: text, replaced: { type: 'boolean' } })),
  change,
});

const unjudged = members({
  file: text,
  job: { type: 'null' },
  problems,
  now,
  change,
  last: orNull('object'),
});

const gone = members({
  file: text,
  job: orNull('string'),
  vehicle: orNull('string'),
  title: orNull('string'),
  change: members({ kind: { const: 'gone' }, says: list(text) }),
});

const totals = members({
  files: count,
  by: counts('cannot-be-judged', 'hold', 'look', 'note', 'not-clear', 'outstanding', 'clear'),
  status: counts('open', 'waiting', 'closed'),
  endingSoon: count,
  ended: count,
  failing: count,
  faults: count,
  changes: counts('new', 'changed', 'unchanged', 'gone'),
});

export const sweepSchema: Schema = {
  $schema: 'http://json-schema.org/draft-07/schema#',
  $id: 'sweep.json',
  title: 'Cornerwise sweep output',
  description:
    'What sweep --format json prints; ndjson prints one member of rows a line, and then one of gone a line, each with the format in front.',
  definitions: { row: { oneOf: [judged, unjudged] }, gone },
  ...members({
    format,
    tool,
    asOf: instant,
    rows: list({ $ref: '#/definitions/row' }),
    gone: list({ $ref: '#/definitions/gone' }),
    notices: list(
      members({
        kind: { enum: ['replaced', 'other-bytes', 'other-version'] },
        id: text,
        version: text,
        was: orNull('string'),
        jobs: count,
      }),
    ),
    totals,
    leftOut: counts('closed', 'notJobs', 'filtered', 'unchanged'),
    stopped: { ...counts('done', 'of'), type: ['object', 'null'] },
  }),
};
