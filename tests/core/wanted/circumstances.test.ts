import { describe, expect, it } from 'vitest';
import { preparePacks } from '../../../src/core/prepare/prepared-packs.ts';
import { type WantedCondition, wantedConditions } from '../../../src/core/wanted/circumstances.ts';
import { jobOf, packOf } from '../../support/judge.ts';

const range = (id: string, of: string, more: string): string =>
  `  - {id: ${id}, kind: range, title: ${id}, of: ${of}, in: [key-on], basis: {kind: from-memory}, tiers: [{weight: look, at-least: 0.5 V}]${more}}`;

const wanted = (
  checks: readonly string[],
  keys: readonly string[],
  asking: readonly string[] = checks.map((_, index) => `c${index + 1}`),
): WantedCondition[] => {
  const packs = [packOf(`checks:\n${checks.join('\n')}`)];
  const ids = new Set(asking.map((id) => `bench/${id}`));
  return wantedConditions(keys, 'key-on', jobOf('snapshots: []', packs), preparePacks(packs), ids);
};

const level = range('c1', 'supply', ', needs: {floor: level, load: empty}');

describe('the conditions that some readings want', () => {
  it('are those of the checks that read them', () => {
    expect(wanted([level], ['supply'])).toEqual([
      { name: 'floor', wants: 'level' },
      { name: 'load', wants: 'empty' },
    ]);
    expect(wanted([level], ['battery'])).toEqual([]);
    expect(wanted([level], [])).toEqual([]);
  });

  it('are not those of checks that ask for nothing', () => {
    const other = range('c2', 'supply', ', needs: {maintainer: "on"}');
    expect(wanted([level, other], ['supply'], ['c1']).map(({ name }) => name)).toEqual(['floor', 'load']);
  });

  it('are recommended one way only where no other check stands against it', () => {
    const on = range('c1', 'supply', ', needs: {maintainer: "on"}');
    const never = range('c2', 'supply', ', unless: {maintainer: "on"}');
    const off = range('c2', 'supply', ', needs: {maintainer: "off"}');
    const elsewhere = range('c2', 'battery', ', unless: {maintainer: "on"}');
    expect(wanted([on], ['supply'])).toEqual([{ name: 'maintainer', wants: 'on' }]);
    expect(wanted([on, never], ['supply'])).toEqual([{ name: 'maintainer', wants: null }]);
    expect(wanted([on, off], ['supply'])).toEqual([{ name: 'maintainer', wants: null }]);
    expect(wanted([on, elsewhere], ['supply'])).toEqual([{ name: 'maintainer', wants: 'on' }]);
  });
});
