import { Ajv } from 'ajv';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { changeOf, type Earlier } from '../../../src/core/sweep/compare-rows.ts';
import { schemas } from '../../../src/input/schema/all-schemas.ts';
import { outputFormat } from '../../../src/report/output-format.ts';
import { renderSweepJson, renderSweepNdjson } from '../../../src/report/sweep/sweep-json.ts';
import { closedSchema } from '../../support/closed-schema.ts';
import { anyGone, anyRows, gone, night, renderingOf, row, shown } from './rows.ts';

const ajv = new Ajv({ allErrors: true, strict: true, allowUnionTypes: true, formats: { 'date-time': true } });
const published = ajv.compile(schemas.sweep);
const validate = ajv.compile({ ...closedSchema(schemas.sweep), $id: 'closed-sweep.json' });

const whole = (rendering = renderingOf(night(), { gone: [gone] })): Record<string, unknown> =>
  JSON.parse(shown(renderSweepJson, rendering)) as Record<string, unknown>;

const linesOf = (rendering: ReturnType<typeof renderingOf>): unknown[] =>
  shown(renderSweepNdjson, rendering)
    .split('\n')
    .slice(0, -1)
    .map((line) => JSON.parse(line) as unknown);

/** A line as the next night reads it: its instants in milliseconds again. */
const earlier = (line: unknown): Earlier => {
  const read = line as { job: string | null; ends: { at: string }[] };
  if (read.job === null) return read as unknown as Earlier;
  return {
    ...read,
    ends: read.ends.map((end) => ({ ...end, at: Date.parse(end.at) })),
  } as unknown as Earlier;
};

describe('sweep --format json', () => {
  it('fits its schema, whatever a file says', () => {
    fc.assert(
      fc.property(anyRows, anyGone, fc.boolean(), (rows, left, stopped) => {
        const rendering = renderingOf(rows, {
          ...{ gone: left, compared: true, stopped: stopped ? { done: 3, of: 9 } : null },
        });
        expect(validate(whole(rendering)), JSON.stringify(validate.errors)).toBe(true);
      }),
    );
  });

  it('the closed schema refuses a member too many, the published one only one too few', () => {
    const output = whole();
    const [first, second] = output.rows as Record<string, unknown>[];
    expect(validate(output)).toBe(true);
    for (const rows of [[{ ...first, extra: 1 }], [{ ...second, extra: 1 }]]) {
      expect([validate({ ...output, rows }), published({ ...output, rows })]).toEqual([false, true]);
    }
    const rows = [{ ...second, steps: undefined }];
    expect([validate({ ...output, rows }), published({ ...output, rows })]).toEqual([false, false]);
    expect(validate({ ...output, totals: undefined })).toBe(false);
  });

  it('has its members in the order that is documented', () => {
    const output = whole();
    expect(Object.keys(output)).toEqual([
      'format',
      'tool',
      'asOf',
      'rows',
      'gone',
      'notices',
      'totals',
      'leftOut',
      'stopped',
    ]);
    expect(Object.keys((output.rows as object[])[1] ?? {})).toEqual([
      ...[
        'file',
        'job',
        'title',
        'vehicle',
        'status',
        'asOf',
        'opened',
        'zone',
        'daysOpen',
        'level',
        'fails',
      ],
      ...['findings', 'holdPoints', 'steps', 'now', 'waitsFor', 'ends', 'warnings', 'packs', 'change'],
    ]);
    expect(output).toMatchObject({
      format: 1,
      tool: { name: 'cornerwise', version: '0.1.0' },
      asOf: '2026-03-02T18:00:00.000Z',
    });
  });

  it('has the heaviest weight that counts as its level, and none where all was accepted', () => {
    const [, , , look] = night();
    const waived = { reason: 'battery on order', by: 'foreman', until: '2026-03-08' };
    const accepted = row('jobs/s01.yaml', {
      findings: look?.job ? look.findings.map((one) => ({ ...one, waived })) : [],
    });
    const levels = linesOf(renderingOf([...night(), accepted])).map(
      (one) => (one as { level?: string }).level,
    );
    expect(levels).toEqual([undefined, 'hold', 'hold', 'look', null, null, null, null]);
  });

  it('is sound JSON without a row, too', () => {
    expect(whole(renderingOf([]))).toMatchObject({ rows: [], gone: [], stopped: null });
  });
});

describe('sweep --format ndjson', () => {
  it('is the members of rows and then of gone, one a line', () => {
    const rendering = renderingOf(night(), { gone: [gone] });
    const { rows, gone: left } = whole(rendering) as { rows: unknown[]; gone: unknown[] };
    expect(linesOf(rendering)).toEqual(
      [...rows, ...left].map((one) => ({ format: outputFormat, ...(one as object) })),
    );
    expect(left).toEqual([gone]);
  });

  it('holds all that the next night compares: against itself nothing changed', () => {
    fc.assert(
      fc.property(anyRows, (rows) => {
        const lines = linesOf(renderingOf(rows));
        expect(rows.map((one, at) => changeOf(earlier(lines[at]), one))).toEqual(
          rows.map(() => ({ kind: 'unchanged', says: [] })),
        );
      }),
    );
  });

  it('sends no control raw, and loses none', () => {
    const file = 'jobs/no\u202esuch\u009b31m\u001b[2J.yaml';
    const text = shown(renderSweepNdjson, renderingOf([row(file)]));
    expect(text).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202e]/u);
    expect(JSON.parse(text)).toMatchObject({ file });
  });
});
