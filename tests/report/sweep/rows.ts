import fc from 'fast-check';
import { actors, nowKinds } from '../../../src/core/now/now.ts';
import {
  type DatedEnd,
  type GoneRow,
  type JudgedRow,
  type Row,
  type RowFinding,
  type RowNow,
  rowAt,
  type Standing,
  type UnjudgedRow,
} from '../../../src/core/sweep/row.ts';
import { orderOf } from '../../../src/core/sweep/row-order.ts';
import { counter } from '../../../src/core/sweep/totals.ts';
import type { SweepRenderer, SweepRendering } from '../../../src/report/sweep/rendering.ts';

export const asOf = Date.UTC(2026, 2, 2, 18);
const day = 86_400_000;

/** A finding that is out. */
export const finding = (part: Partial<RowFinding> = {}): RowFinding => ({
  id: 'position-signals/left-against-right:rear',
  state: 'key-on',
  title: 'Left against right',
  verdict: 'out',
  weight: 'hold',
  says: 'the left shows lower than the right on this axle',
  waived: null,
  ...part,
});

/** What to do now, with nothing to heed. */
export const nowOf = (kind: RowNow['kind'], id: string | null, title: string, minutes: number): RowNow => ({
  ...{ kind, id, title, because: '', minutes, elapsed: 0, cautions: [], command: null, for: 'technician' },
});

const standing: Standing = {
  job: 'S07-0412',
  title: 'Left rear sits low',
  vehicle: 'Shuttle 7',
  status: 'open',
  zone: 'Europe/Dublin',
  opened: asOf - 12 * day,
  fails: false,
  findings: [],
  holdPoints: [{ id: 'release', title: 'Release to the driver', clear: true, reason: null }],
  steps: [],
  now: nowOf('hand-over', 'hand-over', 'Hand over the vehicle and its record', 0),
  waitsFor: [],
  ends: [],
  warnings: [],
  packs: [],
};

type Part = Partial<Standing> & Pick<Partial<JudgedRow>, 'change'>;

/** A job with nothing outstanding but for what is given. */
export const row = (file: string, { change = null, ...part }: Part = {}): JudgedRow => ({
  ...rowAt(file, { ...standing, ...part }, asOf, 7),
  change,
});

/** A file that cannot be judged. */
export const unjudged = (file: string, part: Partial<UnjudgedRow> = {}): UnjudgedRow => ({
  file,
  job: null,
  problems: [
    { code: 'unknown-key', message: 'there is no key "jbo" here', line: 2, column: 1, hint: 'write job' },
    { code: 'missing-key', message: 'the key "job" is missing', line: 1, column: 1, hint: null },
  ],
  now: nowOf('correct', null, 'Correct the file', 0),
  change: null,
  last: null,
  ...part,
});

const held = { id: 'release', title: 'Release to the driver', clear: false, reason: 'Warning lamp: out' };
const step = (title: string, minutes = 2): RowNow => nowOf('step', 'a-step', title, minutes);
const outstanding = [
  { id: 'handover', title: 'Hand over the vehicle and its record', state: 'ready' as const },
];

/** A night of the shuttle fleet, the worst first: one job of each kind. */
export const night = (folder = 'jobs/'): Row[] => [
  unjudged(`${folder}s08.yaml`),
  row(`${folder}s09.yaml`, {
    ...{ vehicle: 'Shuttle 9', job: 'S09-0131', fails: true, opened: asOf - 40 * day },
    findings: [
      finding({ id: 'supply-charging/cranking:battery', state: 'cranking', title: 'Voltage while cranking' }),
    ],
    holdPoints: [held],
    now: nowOf('test', 'load-test', 'Load test of the battery', 6),
    ends: [
      {
        ...{ kind: 'waiver', what: 'supply-charging/cranking', until: '2026-02-27' },
        ...{ at: asOf - 2 * day, reason: 'battery on order' },
      },
    ],
    warnings: ['an entry lies after the time judged'],
  }),
  row(`${folder}s07.yaml`, {
    fails: true,
    findings: [
      finding(),
      finding({ id: 'position-signals/lamp:lamp', title: 'Warning lamp' }),
      finding({ id: 'position-signals/ride-band:LR', title: 'Signal near the middle', weight: 'look' }),
    ],
    holdPoints: [held, { ...held, id: 'order-part', title: 'Order of the part' }],
    steps: outstanding,
    now: step('Angles of the sensor arms, side against side', 8),
  }),
  row(`${folder}s22.yaml`, {
    ...{ vehicle: 'Shuttle 22', job: 'S22-0714', status: 'waiting', opened: asOf - 5 * day },
    findings: [
      finding({
        ...{ id: 'supply-charging/charging:battery', state: 'running', title: 'Charging voltage' },
        ...{ verdict: 'too-close', weight: 'look' },
      }),
    ],
    holdPoints: [held],
    steps: outstanding,
    now: nowOf('wait', 'learn', 'Wait for the Ride-height learn', 15),
    waitsFor: ['access for height-learn'],
    ends: [{ kind: 'access', what: 'height-learn', at: asOf + 2 * day, until: null, reason: null }],
  }),
  row(`${folder}s10.yaml`, {
    ...{ vehicle: 'Shuttle 10', job: 'S10-0219', opened: asOf - 3 * day },
    holdPoints: [held],
    steps: outstanding,
    now: step('Readings still to take, cranking'),
  }),
  row(`${folder}s03.yaml`, {
    ...{ vehicle: 'Shuttle 3', job: 'S03-0107', steps: outstanding, opened: asOf - day },
    now: step('Hand over the vehicle and its record', 10),
  }),
  row(`${folder}s19.yaml`, { vehicle: 'Shuttle 19', job: 'S19-0210' }),
];

/** A job that is no longer there. */
export const gone: GoneRow = {
  ...{ file: 'jobs/s04.yaml', job: 'S04-0101', vehicle: 'Shuttle 4', title: 'Rides low' },
  change: { kind: 'gone', says: ['no longer there'] },
};

/** All that a renderer is given for these rows; the totals are theirs unless others are given. */
export const renderingOf = (rows: readonly Row[], part: Partial<SweepRendering> = {}): SweepRendering => {
  const count = counter();
  for (const one of rows) {
    count.add(one);
    if (one.change) count.addChange(one.change.kind);
  }
  for (const _ of part.gone ?? []) count.addChange('gone');
  return {
    ...{ rows, gone: [], totals: count.totals(), asOf, zone: 'Europe/Dublin', withinDays: 7 },
    ...{ leftOut: { closed: 0, notJobs: 0, filtered: 0, unchanged: 0 }, stopped: null, compared: false },
    notices: [],
    version: '0.1.0',
    ...part,
    options: {
      ...{ width: 80, colour: 0, ascii: false, all: false, pressureUnit: null, temperatureUnit: null },
      ...part.options,
    },
  };
};

/** A renderer's whole output. */
export const shown = (renderer: SweepRenderer, rendering: SweepRendering): string =>
  [...renderer(rendering)].join('');

/** Text such as others may type: controls, marks of every format, long words, wide characters. */
const text = fc.oneof(
  fc.string({ unit: 'binary', maxLength: 60 }),
  fc.string({ unit: 'grapheme', maxLength: 200 }),
  fc.constantFrom(
    '<script>alert(1)</script>',
    '"><b>|*wet*|',
    '=1+1',
    "a | b\r\nc;d,'e'",
    '空気ばねの高さ'.repeat(9),
    'x'.repeat(300),
    '\u001b[2J\u202e',
    '',
  ),
);

const end: fc.Arbitrary<DatedEnd> = fc.record({
  kind: fc.constantFrom('waiver', 'access'),
  what: text,
  at: fc.integer({ min: asOf - 30 * day, max: asOf + 30 * day }),
  until: fc.option(fc.constant('2026-03-08')),
  reason: fc.option(text),
  ended: fc.boolean(),
  soon: fc.boolean(),
});

const change = fc.option(
  fc.record({
    kind: fc.constantFrom('new' as const, 'changed' as const, 'unchanged' as const),
    says: fc.array(text, { maxLength: 5 }),
  }),
);

const judgedRow: fc.Arbitrary<JudgedRow> = fc
  .record({
    ...{ file: text, job: text, title: text, vehicle: text, change },
    status: fc.constantFrom('open' as const, 'waiting' as const),
    daysOpen: fc.nat(3000),
    fails: fc.boolean(),
    findings: fc.uniqueArray(
      fc.record({
        ...{ id: text.map((one) => `pack/check:${one}`), title: text, says: text },
        state: fc.constantFrom('key-on' as const, null),
        verdict: fc.constantFrom('out' as const, 'too-close' as const),
        weight: fc.constantFrom('hold' as const, 'look' as const, 'note' as const),
        waived: fc.option(fc.record({ reason: text, by: text, until: fc.constant('2026-03-08') })),
      }),
      { maxLength: 3, selector: ({ id }) => id },
    ),
    holdPoints: fc.uniqueArray(
      fc.record({ id: text, title: text, clear: fc.boolean(), reason: fc.option(text) }),
      { maxLength: 2, selector: ({ id }) => id },
    ),
    steps: fc.uniqueArray(
      fc.record({ id: text, title: text, state: fc.constantFrom('ready' as const, 'waiting' as const) }),
      { maxLength: 2, selector: ({ id }) => id },
    ),
    now: fc
      .record({
        kind: fc.constantFrom(...nowKinds),
        id: fc.option(text),
        title: text,
        because: text,
        minutes: fc.nat(300),
        elapsed: fc.nat(300),
        cautions: fc.array(text, { maxLength: 2 }),
        command: fc.constant(null),
        for: fc.constantFrom(...actors),
      })
      .map((made): RowNow => made),
    waitsFor: fc.array(text, { maxLength: 2 }),
    ends: fc.uniqueArray(end, { maxLength: 2, selector: ({ what }) => what }),
    warnings: fc.array(text, { maxLength: 2 }),
  })
  .map((made) => ({ ...row('', {}), ...made }));

const unjudgedRow: fc.Arbitrary<UnjudgedRow> = fc
  .record({
    file: text,
    change,
    problems: fc.array(
      fc.record({
        ...{ code: fc.constant('yaml-syntax'), message: text, hint: fc.option(text) },
        ...{ line: fc.option(fc.integer({ min: 1, max: 9999 })), column: fc.option(fc.integer({ min: 1 })) },
      }),
      { minLength: 1, maxLength: 3 },
    ),
  })
  .map(({ file, ...made }) => unjudged(file, made));

const goneRow: fc.Arbitrary<GoneRow> = fc.record({
  ...{ file: text, job: fc.option(text), vehicle: fc.option(text), title: fc.option(text) },
  change: fc.record({ kind: fc.constant('gone' as const), says: fc.array(text, { maxLength: 2 }) }),
});

/** Rows of every kind with any text in them. */
export const anyRows = fc.array(fc.oneof({ weight: 3, arbitrary: judgedRow }, unjudgedRow), { maxLength: 4 });
export const anyGone = fc.array(goneRow, { maxLength: 2 });

/** Whether rows stand in the order in which a sweep prints them. */
export const inOrder = (rows: readonly Row[]): boolean =>
  rows.every((one, index) => {
    const before = rows[index - 1];
    return before === undefined || (orderOf(before)[0] ?? 0) <= (orderOf(one)[0] ?? 0);
  });
