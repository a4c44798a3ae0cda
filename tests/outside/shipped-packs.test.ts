import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { projectRoot } from '../support/run.ts';

/** The figures of the shipped packs against where they come from, each with what is known of its source. */
interface RawCheck {
  readonly id: string;
  readonly [key: string]: unknown;
}

const checkOf = (pack: string, id: string, version = '1.0.0'): RawCheck => {
  const text = readFileSync(join(projectRoot, 'rules', pack, `${version}.yaml`), 'utf8');
  const { checks } = parse(text) as { checks: readonly RawCheck[] };
  const found = checks.find((check) => check.id === id);
  if (!found) throw new Error(`no check ${id}`);
  return found;
};

describe('supply-charging', () => {
  const rested = checkOf('supply-charging', 'rested-battery');

  it('flooded: US Army TM 5-3805-262-20, paragraph 5-9: 12.6 V 100 %, 12.4 75, 12.2 50, 12.0 25, 11.7 0', () => {
    expect(rested).toMatchObject({
      tables: {
        flooded: {
          points: [
            ['11.7 V', '0 %'],
            ['12.0 V', '25 %'],
            ['12.2 V', '50 %'],
            ['12.4 V', '75 %'],
            ['12.6 V', '100 %'],
          ],
          basis: { kind: 'published' },
        },
      },
    });
  });

  it('AGM: full from 12.8 V (US Army TM 9-6115-730-24, WP 0050); the steps below are values from memory', () => {
    expect(rested).toMatchObject({
      rested: '3 h',
      tables: {
        agm: {
          points: [
            ['12.0 V', '25 %'],
            ['12.3 V', '50 %'],
            ['12.6 V', '75 %'],
            ['12.8 V', '100 %'],
          ],
          basis: { kind: 'from-memory' },
        },
      },
    });
  });

  it('freezing by specific gravity, two agreeing US Army texts; gravity by charge from memory', () => {
    expect(rested).toMatchObject({
      freezing: {
        'freezes-at': [
          [1.1, '19 F'],
          [1.15, '5 F'],
          [1.2, '-16 F'],
          [1.25, '-62 F'],
          [1.28, '-90 F'],
        ],
        basis: { kind: 'from-memory' },
      },
    });
  });

  it('cranking: values from memory; one manual gives 9.6 V at about 70 °F', () => {
    expect(checkOf('supply-charging', 'cranking')).toMatchObject({
      'at-least': [
        ['0 F', '8.5 V'],
        ['10 F', '8.7 V'],
        ['20 F', '8.9 V'],
        ['30 F', '9.1 V'],
        ['40 F', '9.3 V'],
        ['50 F', '9.4 V'],
        ['60 F', '9.5 V'],
        ['70 F', '9.6 V'],
      ],
      basis: { kind: 'from-memory' },
    });
  });

  it('compensation of 4 mV lies between a published 5.04 mV (0.028 V a cell for 10 °F) and a common 3 mV', () => {
    const { 'per-degree-and-cell': perDegree, cells } = checkOf('supply-charging', 'charging-window');
    const millivolts = Number.parseFloat(String(perDegree));
    expect(millivolts).toBe(4);
    expect(cells).toBe(6);
  });

  it('16 V is the upper end of all four 12 V classes: ISO 16750-2:2010, tables 1 and 2', () => {
    const { tiers, basis } = checkOf('supply-charging', 'supply-ceiling');
    expect(tiers).toEqual([{ weight: 'hold', 'at-most': '16 V' }]);
    expect(basis).toMatchObject({ kind: 'published', issuer: 'ISO' });
  });
});

describe('position-signals', () => {
  /** Common practice, no source: shares of a 5 V reference. */
  it.each([
    ['rails', 0.05, 0.95],
    ['working-band', 0.1, 0.9],
    ['ride-band', 0.25, 0.75],
  ])('%s is %s to %s of 5 V', (id, low, high) => {
    const { tiers, basis } = checkOf('position-signals', id);
    const [tier] = tiers as { between: string[] }[];
    expect(tier?.between.map(Number.parseFloat)).toEqual([5 * low, 5 * high]);
    expect(basis).toMatchObject({ kind: 'common-practice' });
  });

  it('twist and height-agreement: values from memory; one corner 20 mm off warps the body by 5 mm', () => {
    expect(checkOf('position-signals', 'twist', '1.1.0')).toMatchObject({
      tiers: [{ weight: 'look', between: ['-5 mm', '5 mm'] }],
      basis: { kind: 'from-memory' },
    });
    expect(checkOf('position-signals', 'height-agreement', '1.1.0')).toMatchObject({
      tiers: [
        { weight: 'hold', between: ['-20 mm', '20 mm'] },
        { weight: 'look', between: ['-10 mm', '10 mm'] },
      ],
      basis: { kind: 'from-memory' },
    });
  });

  it('pattern expects the middle of the reference, give or take about half of the ride band: from memory', () => {
    const { expected, spread, basis } = checkOf('position-signals', 'pattern', '1.1.0');
    expect([expected, spread]).toEqual(['2.5 V', '0.6 V']);
    expect(basis).toMatchObject({ kind: 'from-memory' });
  });
});

describe('handover', () => {
  it('cleared-not-tested names ISO 14229-1, D.2; the failure type bytes are values from memory', () => {
    expect(checkOf('handover', 'cleared-not-tested')).toMatchObject({
      basis: { kind: 'published', issuer: 'ISO' },
    });
    expect(checkOf('handover', 'stored-code')).toMatchObject({
      'failure-types': { '51': 'not-programmed', '54': 'not-calibrated', '55': 'not-configured' },
    });
  });
});
