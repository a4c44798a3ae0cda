import { describe, expect, it } from 'vitest';
import { neverReported } from '../../../src/core/proofs/never-reported.ts';
import { packOf } from '../../support/judge.ts';
import { supplyCheck } from './bench-pack.ts';

const found = (tiers: string, change: (body: string) => string = (body) => body): string[] => {
  const [check] = packOf(change(supplyCheck(tiers))).checks;
  if (!check) throw new Error('the pack has a check');
  return neverReported(check, ['checks', 0]).map((gap) =>
    gap.kind === 'never-reported'
      ? `${gap.path.join('.')}: ${gap.weight} ${gap.limit} ${gap.side} behind ${gap.heavier} ${gap.heavierLimit}`
      : gap.kind,
  );
};

describe('a limit that can never be reported', () => {
  it('lies no further in than that of a heavier tier', () => {
    expect(found('{weight: hold, between: [9 V, 16 V]}, {weight: look, between: [8 V, 15 V]}')).toEqual([
      'checks.0.tiers.1.between.0: look 8 V low behind hold 9 V',
    ]);
    expect(found('{weight: look, at-most: 16 V}, {weight: hold, between: [9 V, 15.5 V]}')).toEqual([
      'checks.0.tiers.0.at-most: look 16 V high behind hold 15.5 V',
    ]);
    expect(found('{weight: hold, at-least: 9 V}, {weight: look, at-least: 9000 mV}')).toEqual([
      'checks.0.tiers.1.at-least: look 9000 mV low behind hold 9 V',
    ]);
  });

  it('is none that is further in, or on the other side', () => {
    expect(found('{weight: hold, between: [9 V, 16 V]}, {weight: look, between: [11 V, 15 V]}')).toEqual([]);
    expect(found('{weight: hold, at-least: 9 V}, {weight: look, at-most: 8 V}')).toEqual([]);
    expect(found('{weight: hold, at-least: 9 V}, {weight: hold, at-least: 8 V}')).toEqual([]);
  });

  it('is none where the heavier tier does not always judge', () => {
    const both = (states: string): string => states.replace('in: [key-on]', 'in: [key-on, running]');
    expect(
      found('{weight: hold, in: [running], at-least: 13 V}, {weight: look, at-least: 12 V}', both),
    ).toEqual([]);
    expect(
      found('{weight: hold, at-least: 13 V}, {weight: look, in: [running], at-least: 12 V}', both),
    ).toHaveLength(1);
    expect(
      found('{weight: hold, layouts: [rear-air-assist], at-least: 13 V}, {weight: look, at-least: 12 V}'),
    ).toEqual([]);
    expect(
      found('{weight: hold, needs: {load: empty}, at-least: 13 V}, {weight: look, at-least: 12 V}'),
    ).toEqual([]);
    expect(
      found(
        '{weight: hold, needs: {load: empty}, at-least: 13 V}, {weight: look, needs: {load: empty}, at-least: 12 V}',
      ),
    ).toHaveLength(1);
  });

  it('is none behind a tier that waits for a test', () => {
    const agreement = (body: string): string =>
      body.replace('kind: range', 'kind: agreement').replace('of: supply', 'of: supply, against: battery');
    const once = ', once: {test: second-meter, found: meters-agree}';
    expect(found(`{weight: hold, at-most: 0.3 V${once}}, {weight: look, at-most: 0.3 V}`, agreement)).toEqual(
      [],
    );
    expect(found('{weight: hold, at-most: 0.3 V}, {weight: look, at-most: 0.3 V}', agreement)).toHaveLength(
      1,
    );
  });
});
