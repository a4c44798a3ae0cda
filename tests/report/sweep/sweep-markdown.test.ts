import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { renderSweepMarkdown } from '../../../src/report/sweep/sweep-markdown.ts';
import { anyGone, anyRows, gone, night, renderingOf, row, shown } from './rows.ts';

const markdown = (rendering: ReturnType<typeof renderingOf>): string => shown(renderSweepMarkdown, rendering);

describe('sweep --format markdown', () => {
  it('says what is worst, what is next, and what it waits for', () => {
    const text = markdown(renderingOf(night(), { gone: [gone], compared: true }));
    expect(text).toContain(
      '| hold | Shuttle 7 | jobs/s07.yaml | 12 | Left against right (rear key-on): the left shows lower than the right on this axle; and 2 more | Release to the driver, Order of the part | Angles of the sensor arms, side against side, 8 min |',
    );
    expect(text).toContain('| Wait for the Ride-height learn, 15 min | access for height-learn |');
    expect(text).toContain('WAIVER ENDED 2026-02-27');
    expect(text).toContain('| jobs/s08.yaml:2:1 |  | there is no key "jbo" here; and 1 more problem |');
    expect(text).toContain('### Gone since the earlier sweep');
    expect(text).toContain('vehicle maker’s service information');
  });

  it('says so where there is nothing, and where it was stopped', () => {
    expect(markdown(renderingOf([]))).toContain('No job to show: none was found.');
    const stopped = { done: 1, of: 412 };
    expect(markdown(renderingOf([row('s.yaml')], { stopped }))).toContain(
      '**STOPPED EARLY: only 1 of 412 files',
    );
  });

  it('gives every line of a table as many cells as its head, whatever a file says', () => {
    fc.assert(
      fc.property(anyRows, anyGone, (rows, left) => {
        const lines = markdown(renderingOf(rows, { gone: left, compared: true })).split('\n');
        const cells = lines
          .filter((line) => line.startsWith('|'))
          .map((line) => line.replace(/\\./gu, '').split('|').length - 2);
        const jobs = rows.length === 0 ? [] : [...Array(rows.length + 2)].map(() => 10);
        const goneOnes = left.length === 0 ? [] : [...Array(left.length + 2)].map(() => 4);
        expect(cells).toEqual([...jobs, ...goneOnes]);
      }),
    );
  });
});
