import { mean, sqrt, std, sum } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { judgedExample, type Measured, measuredOf, numbers, textOf } from './judged.ts';

/**
 * Rates of the examples, worked out again from the points of their lines, and these from the text. Formulas: NIST/SEMATECH
 * e-Handbook, 4.4.3.1 (least squares); JCGM 100:2008, 5.1.2 and G.3.
 */

const all = await Promise.all(
  numbers.map(async (number) => ({ number, findings: measuredOf(await judgedExample(number)) })),
);
const lines = all.flatMap(({ findings }) => findings.filter(({ uncertainty }) => uncertainty.line !== null));

const total = (values: readonly number[]): number => Number(sum([0, ...values]));
const rootSum = (values: readonly number[]): number => Number(sqrt(total(values.map((one) => one * one))));

const fitOf = ({ uncertainty: { line } }: Measured) => {
  const points = line ?? [];
  const centre = Number(mean(points.map(({ time }) => time)));
  const level = Number(mean(points.map(({ value }) => value)));
  const sxx = total(points.map(({ time }) => (time - centre) ** 2));
  const slope = total(points.map(({ time, value }) => (time - centre) * (value - level))) / sxx;
  const left = points.map(({ time, value }) => value - level - slope * (time - centre));
  const freedom = points.length - 2;
  return {
    slope,
    error: freedom > 0 ? Number(sqrt(total(left.map((one) => one * one)) / freedom / sxx)) : 0,
    clock: rootSum(points.map(({ time, clock }) => (slope * (time - centre) * clock) / sxx)),
  };
};

/** Student's two-sided 95 % points for 1 to 3 degrees of freedom: JCGM 100:2008, table G.2, with a third place. */
const factors = [12.7062, 4.3027, 3.1824];

describe('a rate of the examples', () => {
  it('is a slope, up to its sign, or what another spring leaves of it', () => {
    expect(lines.length).toBeGreaterThan(4);
    for (const one of lines) {
      if (/height-drop:(?!RR)/u.test(one.id)) continue;
      expect([one.id, Math.abs(one.measured.value)]).toEqual([
        one.id,
        expect.closeTo(Math.abs(fitOf(one).slope), 9),
      ]);
    }
  });

  it('scatters as its readings and its clock do, or as its points about the line', () => {
    let fitted = 0;
    for (const one of lines) {
      const { slope: _, error, clock } = fitOf(one);
      const { inputs, scatter, accuracy, standard, line } = one.uncertainty;
      const read = rootSum([...inputs.map((input) => input.sensitivity * input.scatter), clock]);
      const student = factors[Math.max(1, (line?.length ?? 0) - 2) - 1] ?? Number.NaN;
      const byFit = student * error > 2 * read;
      expect([one.id, scatter]).toEqual([one.id, expect.closeTo(byFit ? error : read, 9)]);
      const covered = rootSum([(byFit ? student : 2) * scatter, 2 * accuracy]) / standard;
      expect([one.id, one.coverage]).toEqual([one.id, expect.closeTo(Math.max(2, covered), 3)]);
      if (byFit) fitted += 1;
    }
    expect(fitted).toBeGreaterThan(0);
    expect(fitted).toBeLessThan(lines.length);
  });

  it('of a closed system is one of absolute pressures, brought to the first temperature', () => {
    const leak = all
      .flatMap(({ number, findings }) => findings.map((one) => ({ number, one })))
      .filter(({ one }) => one.check === 'air-supply/leak-down');
    expect(leak).not.toEqual([]);
    for (const { number, one } of leak) {
      const snapshots = textOf(number).snapshots as {
        at: string;
        conditions?: Record<string, string>;
        readings?: Record<string, string>;
      }[];
      const closed = snapshots.filter(({ conditions }) => conditions?.['air-system'] === 'closed');
      const first = Number.parseFloat(closed[0]?.conditions?.air ?? '') + 273.15;
      const points = closed.map(({ at, conditions, readings }) => {
        const air = Number.parseFloat(conditions?.air ?? '') + 273.15;
        const local = Number.parseFloat(conditions?.barometer ?? '') / 6.894_757_293_168;
        return {
          time: (Date.parse(`${at}Z`) - Date.parse(`${closed[0]?.at}Z`)) / 3_600_000,
          // The clock was read to the minute.
          clock: 1 / 60 / Math.sqrt(12),
          value: (Number.parseFloat(readings?.tank ?? '') + local) * (first / air),
        };
      });
      expect(one.uncertainty.line).toEqual(
        points.map(({ time, clock, value }) => ({
          time: expect.closeTo(time, 12),
          clock: expect.closeTo(clock, 12),
          value: expect.closeTo(value, 9),
        })),
      );
      expect(Number(std(points.map(({ value }) => value)))).toBeLessThan(0.5);
    }
  });

  it('of heights takes off what the spring of another corner of a rigid body explains', () => {
    const drops = new Map(
      lines.filter(({ check }) => check === 'air-supply/height-drop').map((one) => [one.subject, one]),
    );
    expect([...drops.keys()].sort()).toEqual(['LF', 'LR', 'RF', 'RR']);
    const takenOff = (corner: string): number => {
      const one = drops.get(corner);
      return one ? -fitOf(one).slope - one.measured.value : Number.NaN;
    };
    // A rigid body has no warp, so the three that lean tell what the fourth lost.
    const lost = takenOff('RF') + takenOff('LR') - takenOff('LF');
    const own = drops.get('RR')?.measured;
    expect(Math.abs(lost - (own?.value ?? 0))).toBeLessThan(own?.expanded ?? 0);
    // By statics the corner across rises by what the mate of the side sinks, whatever the roll bars are.
    expect(takenOff('LF')).toBeLessThan(0);
    const shares = [takenOff('RF'), -takenOff('LF')].map((one) => one / lost).sort();
    expect(shares[1]).toBeCloseTo(shares[0] ?? Number.NaN, 9);
  });
});
