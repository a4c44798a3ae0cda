import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { renderSweepMonitor } from '../../../src/report/sweep/monitor.ts';
import { anyRows, night, renderingOf, row, shown } from './rows.ts';

const monitor = (rendering: ReturnType<typeof renderingOf>): string => shown(renderSweepMonitor, rendering);

/**
 * Monitoring Plugins Development Guidelines, "Performance data": values apart by blanks, each
 * `'label'=value[UOM];[warn];[crit];[min];[max]`; a label without blanks needs no quotes.
 */
const value = /^[\w-]+=\d+;\d*;\d*;\d*;\d+$/u;

describe('sweep --format monitor (Monitoring Plugins Development Guidelines)', () => {
  it('is one line: the state, a text, a pipe, and numbers', () => {
    expect(monitor(renderingOf(night()))).toMatchInlineSnapshot(`
      "CORNERWISE CRITICAL - 1 file cannot be judged, 2 of 7 jobs at hold, 1 at look, 1 with a waiver or access that ended, 1 where one ends within 7 days | failing=2;0;;0;7 cannot-be-judged=1;;0;0;7 hold=2;;;0;7 look=1;;;0;7 note=0;;;0;7 not-clear=1;;;0;7 outstanding=1;;;0;7 clear=1;;;0;7 waiting=1;;;0;7 ended=1;;;0;7 ending-soon=1;;;0;7
      "
    `);
    fc.assert(
      fc.property(anyRows, fc.boolean(), (rows, stopped) => {
        const line = monitor(renderingOf(rows, { stopped: stopped ? { done: 1, of: 9 } : null }));
        expect(line).toMatch(/^CORNERWISE (OK|WARNING|CRITICAL) - [\u0020-\u007b]+ \| [\u0020-\u007b]+\n$/u);
        const [, numbers = ''] = line.trimEnd().split(' | ');
        expect(numbers.split(' ').filter((one) => !value.test(one))).toEqual([]);
      }),
    );
  });

  it('warns where a job fails', () => {
    const line = monitor(renderingOf(night().slice(1)));
    expect(line).toMatch(/^CORNERWISE WARNING - 2 of 6 jobs at hold, 1 at look, /u);
    expect(line).toContain(' | failing=2;0;;0;6 cannot-be-judged=0;;0;0;6 hold=2;;;0;6 ');
  });

  it('is critical where a file cannot be judged or the sweep was stopped', () => {
    expect(monitor(renderingOf(night().slice(0, 1)))).toMatch(
      /^CORNERWISE CRITICAL - 1 file cannot be judged, /u,
    );
    const stopped = { done: 1, of: 412 };
    expect(monitor(renderingOf([row('s.yaml')], { stopped }))).toMatch(
      /^CORNERWISE CRITICAL - stopped early, 1 of 412 files looked at, /u,
    );
  });

  it('is well where nothing reaches the fail level, and where there is no job', () => {
    expect(monitor(renderingOf(night().slice(3)))).toMatch(
      /^CORNERWISE OK - 0 of 4 jobs at hold, 1 at look, /u,
    );
    expect(monitor(renderingOf([]))).toMatch(/^CORNERWISE OK - 0 of 0 jobs at hold \| /u);
  });
});
