import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { oneLine } from '../../../src/report/clean.ts';
import { renderSweepCsv } from '../../../src/report/sweep/sweep-csv.ts';
import { parseCsv } from '../../support/parse-csv.ts';
import { anyGone, anyRows, asOf, gone, night, renderingOf, row, shown } from './rows.ts';

const parsed = (rendering: ReturnType<typeof renderingOf>): Record<string, string>[] => {
  const [head = [], ...rows] = parseCsv(shown(renderSweepCsv, rendering));
  return rows.map((cells) => {
    expect(cells).toHaveLength(head.length);
    return Object.fromEntries(head.map((name, at) => [name, cells[at] ?? '']));
  });
};

describe('sweep --format csv (RFC 4180)', () => {
  it('has a line a job, and those that are gone last', () => {
    const rows = parsed(renderingOf(night(), { gone: [gone] }));
    expect(rows.map(({ file, worst, change }) => [file, worst, change])).toEqual([
      ['jobs/s08.yaml', 'cannot-be-judged', ''],
      ['jobs/s09.yaml', 'hold', ''],
      ['jobs/s07.yaml', 'hold', ''],
      ['jobs/s22.yaml', 'look', ''],
      ['jobs/s10.yaml', 'not-clear', ''],
      ['jobs/s03.yaml', 'outstanding', ''],
      ['jobs/s19.yaml', 'clear', ''],
      ['jobs/s04.yaml', '', 'gone'],
    ]);
    expect(rows[0]).toMatchObject({ problem: 'unknown-key', line: '2', nowTitle: 'Correct the file' });
    expect(rows[1]).toMatchObject({
      ends: 'waiver supply-charging/cranking',
      ended: 'true',
      endsSoon: 'false',
    });
    expect(rows[2]).toMatchObject({
      ...{ vehicle: 'Shuttle 7', fails: 'true', daysOpen: '12', opened: '2026-02-18T18:00:00.000Z' },
      ...{ findings: '3', finding: 'Left against right (rear key-on)', minutes: '8', steps: '1' },
      holdPointsNotClear: 'Release to the driver; Order of the part',
    });
    expect(rows[3]).toMatchObject({ waitsFor: 'access for height-learn', now: 'wait', endsSoon: 'true' });
  });

  it('tells what is still to end before what ended', () => {
    const ends = [-9, 3, 20].map((days) => ({
      ...{
        kind: 'access' as const,
        what: `learn ${days}`,
        at: asOf + days * 86_400_000,
        until: null,
        reason: null,
      },
    }));
    expect(parsed(renderingOf([row('s.yaml', { ends })]))[0]).toMatchObject({
      ends: 'access learn 3',
      ended: 'true',
    });
  });

  it('parses back, a line a row, whatever a file says, and lets no spreadsheet run it', () => {
    fc.assert(
      fc.property(anyRows, anyGone, (rows, left) => {
        const lines = parsed(renderingOf(rows, { gone: left }));
        const said = (text: string): string => oneLine(text).replace(/^[=+\-@]/u, "'$&");
        expect(lines.map(({ file }) => file)).toEqual([...rows, ...left].map(({ file }) => said(file)));
        for (const cell of lines.flatMap((line) => Object.values(line)))
          expect(cell).not.toMatch(/^[=+\-@]|[\r\n]/u);
      }),
    );
  });
});
