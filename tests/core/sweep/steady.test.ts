import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assessBriefly } from '../../../src/core/assess.ts';
import { steadySpan } from '../../../src/core/sweep/steady.ts';
import type { BriefWorksheet } from '../../../src/core/worksheet.ts';
import { standingOf } from '../../../src/report/sweep/standing.ts';
import { libraryCache } from '../../../src/shell/library-cache.ts';
import { shippedRules } from '../../../src/shell/package-folder.ts';
import { readJobText } from '../../../src/shell/read-job-text.ts';
import { shopFor } from '../../../src/shell/shop-file.ts';
import { projectRoot } from '../../support/run.ts';

const folder = join(projectRoot, 'examples');
const io = { readFile: async (path: string) => readFileSync(path) } as never;

const library = libraryCache()([shippedRules()]);

const read = async (name: string) => {
  const found = await shopFor(folder, io);
  return readJobText(readFileSync(join(folder, name), 'utf8'), found, library);
};

const minutesOf = ({ steps }: BriefWorksheet): number => steps.reduce((sum, { minutes }) => sum + minutes, 0);

describe('how long a judgement stays what it is', () => {
  const names = readdirSync(folder).filter((name) => name.startsWith('shuttle-'));

  it.each(names)('is right for %s, at any two times of one span', async (name) => {
    const { job, prepared } = await read(name);
    if (job === null) throw new Error(`${name} cannot be read`);
    const at = fc.integer({ min: job.opened - 86_400_000, max: job.opened + 20 * 86_400_000 });
    fc.assert(
      fc.property(at, fc.double({ min: 0, max: 1, noNaN: true }), (asOf, share) => {
        const sheet = assessBriefly(job, prepared, asOf);
        const { from, until } = steadySpan(job, asOf, minutesOf(sheet));
        expect(from).toBeLessThanOrEqual(asOf);
        expect(until).toBeGreaterThan(asOf);
        const low = Math.max(from, job.opened - 86_400_000);
        const high = Math.min(until, job.opened + 30 * 86_400_000) - 1;
        const other = Math.floor(low + (high - low) * share);
        expect(standingOf(assessBriefly(job, prepared, other), 'hold')).toEqual(standingOf(sheet, 'hold'));
      }),
      { numRuns: 6 },
    );
  });

  it('turns at every entry, at the end of a waiver and at both ends of access', async () => {
    const { job } = await read('shuttle-07-left-rear-low.yaml');
    if (job === null) throw new Error('cannot be read');
    const line = { kind: 'access', what: 'height-learn', amount: 74, minutes: null } as const;
    const withAccess = {
      ...job,
      snapshots: [],
      log: [],
      waivers: [],
      costs: { ...job.costs, authorised: [], lines: [{ ...line, from: 1_000_000, ends: 9_000_000 }] },
    };
    const span = (asOf: number) => steadySpan(withAccess, asOf, 10);
    const never = Number.POSITIVE_INFINITY;
    expect(span(999_999)).toEqual({ from: -never, until: 1_000_000 });
    expect(span(1_000_000)).toEqual({ from: 1_000_000, until: 8_400_001 });
    expect(span(8_400_000)).toEqual({ from: 1_000_000, until: 8_400_001 });
    // From here on every millisecond may be the one at which some step no longer fits in.
    expect(span(8_400_001)).toEqual({ from: 8_400_001, until: 8_400_002 });
    expect(span(9_000_000)).toEqual({ from: 9_000_000, until: 9_000_001 });
    expect(span(9_000_001)).toEqual({ from: 9_000_001, until: never });
    const ofJob = steadySpan(job, job.snapshots[0]?.stamp.at ?? 0, 0);
    expect(ofJob).toEqual({ from: job.snapshots[0]?.stamp.at, until: job.snapshots[1]?.stamp.at });
  });
});
