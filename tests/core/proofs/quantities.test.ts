import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { kinds } from '../../../src/core/checks/kinds/index.ts';
import { quantitiesOf } from '../../../src/core/proofs/quantities.ts';
import { packOf } from '../../support/judge.ts';
import { projectRoot } from '../../support/run.ts';
import { shippedPack } from '../../support/shipped.ts';
import { supplyCheck } from './bench-pack.ts';

describe('the quantities of a check', () => {
  it('are its limits, with what stands beside each', () => {
    const [check] = packOf(
      supplyCheck(
        '{weight: hold, between: [9 V, 16 V]}, {weight: look, at-least: 11.8 V}',
        ', asleep: 5 min',
      ),
    ).checks;
    if (!check) throw new Error('the pack has a check');
    expect(quantitiesOf(check).map(({ path, text, beside }) => [path.join('.'), text, beside.kind])).toEqual([
      ['asleep', '5 min', 'alone'],
      ['tiers.0.between.0', '9 V', 'band'],
      ['tiers.0.between.1', '16 V', 'band'],
      ['tiers.1.at-least', '11.8 V', 'alone'],
    ]);
  });

  it('are the cells of its tables, by column; a specific gravity has no unit', () => {
    const frozen = shippedPack('supply-charging@2.0.0').checks.find(({ id }) =>
      id.endsWith('/frozen-battery'),
    );
    if (!frozen) throw new Error('the pack has the check');
    const found = quantitiesOf(frozen);
    const gravity = found.find(({ path }) => path.join('.') === 'freezing.specific-gravity.1.1');
    expect(gravity).toMatchObject({ text: '1.155', hasUnit: false });
    expect(gravity?.beside).toMatchObject({ kind: 'column', row: 1, orders: false });
    expect(found.find(({ path }) => path.join('.') === 'tables.agm.points.2.0')).toMatchObject({
      text: '12.6 V',
      hasUnit: true,
      beside: { kind: 'column', cells: ['12.0 V', '12.3 V', '12.6 V', '12.8 V'], row: 2, orders: true },
    });
  });

  it('are found in every kind whose checks have numbers', () => {
    const text = readFileSync(join(projectRoot, 'rules/supply-charging/2.0.0.yaml'), 'utf8');
    const checks = packOf(text).checks;
    expect(checks.filter((check) => quantitiesOf(check).length === 0)).toEqual([]);
    expect(kinds.length).toBeGreaterThan(25);
  });
});
