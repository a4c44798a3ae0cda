import { describe, expect, it } from 'vitest';
import { suggestionFor } from '../../../src/core/proofs/suggestion.ts';
import { pinningOf } from '../../../src/core/proofs/unnoticed.ts';
import { provedPack, supplyCheck, supplyProof } from './bench-pack.ts';

const limit = supplyCheck('{weight: look, at-least: 11.8 V}');

const unnoticed = (body: string, proofs: string): string[] => {
  const { pack, proofs: read } = provedPack(body, proofs);
  return pinningOf(pack, read).unnoticed.map(({ move }) => `${move.quantity.text} -> ${move.to}`);
};

const suggested = (body: string, proofs: string) => {
  const { pack, proofs: read } = provedPack(body, proofs);
  return pinningOf(pack, read).unnoticed.map(suggestionFor);
};

describe('pinning a limit', () => {
  it('takes a proof on either side, at the limit', () => {
    expect(unnoticed(limit, supplyProof('11.799 V', 'out look') + supplyProof('11.801 V', 'within'))).toEqual(
      [],
    );
    expect(unnoticed(limit, supplyProof('11.799 V', 'out look') + supplyProof('13.000 V', 'within'))).toEqual(
      ['11.8 V -> 12.036 V', '11.8 V -> 12.98 V'],
    );
    expect(unnoticed(limit, supplyProof('9.000 V', 'out look') + supplyProof('11.801 V', 'within'))).toEqual([
      '11.8 V -> 11.564 V',
      '11.8 V -> 10.62 V',
    ]);
  });

  it('counts no proof that fails as it is, nor one of another check', () => {
    const wrong = supplyProof('11.799 V', 'within') + supplyProof('11.801 V', 'out look');
    expect(unnoticed(limit, wrong)).toHaveLength(4);
    const two = `${limit}\n  - {id: other, kind: range, title: Other, of: supply, in: [key-on], basis: {kind: from-memory}, tiers: [{weight: look, at-least: 9 V}]}`;
    const own = supplyProof('8.999 V', 'out look', 'other') + supplyProof('9.001 V', 'within', 'other');
    expect(unnoticed(two, own)).toEqual([
      '11.8 V -> 11.564 V',
      '11.8 V -> 12.036 V',
      '11.8 V -> 10.62 V',
      '11.8 V -> 12.98 V',
    ]);
  });

  it('notices by a quantity that a proof expects', () => {
    const body =
      'checks: [{id: soc, kind: state-of-charge, title: Charge, of: battery, temperature: battery-temperature, in: [rest], rested: 3 h, band: 10 %, tables: {flooded: {points: [[11.7 V, 0 %], [12.7 V, 100 %]], basis: {kind: from-memory}}}, tiers: [{weight: look, at-least: 50 %}], basis: {kind: from-memory}}]';
    const proof = (expected: string): string =>
      `  - given: {instruments: {meter: {accuracy: 0 V, shows: 0.001 V}}, state: rest, conditions: {rested: 5 h}, readings: {battery: 11.900 V}}
    expect: {soc: {battery: ${expected}}}
`;
    const ofTable = (moves: string[]): string[] =>
      moves.filter((move) => /^(?:11\.7|12\.7|0 %|100)/u.test(move));
    expect(ofTable(unnoticed(body, proof('out look')))).toHaveLength(16);
    expect(ofTable(unnoticed(body, proof('out look 20.00 %')))).toEqual([]);
  });
});

describe('a suggested proof', () => {
  it('is one that is there, with one reading that tells the moved limit from the limit', () => {
    const proofs = supplyProof('11.000 V', 'out look') + supplyProof('13.000 V', 'within');
    const [down, up] = suggested(limit, proofs);
    expect(down).toMatchObject({ name: 'supply', subject: 'supply', unit: 'V', expecting: 'out look' });
    expect(Number(down?.value)).toBeGreaterThan(11.564);
    expect(Number(down?.value)).toBeLessThan(11.8);
    expect(up).toMatchObject({ name: 'supply', expecting: 'within' });
    expect(Number(up?.value)).toBeGreaterThan(11.8);
    expect(Number(up?.value)).toBeLessThan(12.036);
  });

  it('pins the limit once it is written down, whatever the kind', () => {
    const body =
      'checks: [{id: pair, kind: left-right, title: Pair, of: position, in: [key-on], tiers: [{weight: look, between: [-0.5 V, 0.5 V]}], basis: {kind: from-memory}}]';
    const proof = (readings: string, expected: string): string =>
      `  - given: {instruments: {module: {accuracy: 0 V, shows: 0.001 V}}, state: key-on, readings: {position: ${readings}}}
    expect: {pair: {front: ${expected}}}
`;
    const given =
      proof('{LF: 2.000 V, RF: 2.800 V}', 'out look') + proof('{LF: 2.900 V, RF: 2.000 V}', 'out look');
    const { pack, proofs } = provedPack(body, given);
    const added = pinningOf(pack, proofs).unnoticed.map((one) => {
      const found = suggestionFor(one);
      if (!found) throw new Error(`nothing is suggested for ${one.move.to}`);
      const corner = found.name.slice('position.'.length);
      const start = given.split('\n')[2 * (found.like === 5 ? 0 : 1)] ?? '';
      const readings = /position: (\{[^}]*\})/u.exec(start)?.[1] ?? '';
      return proof(
        readings.replace(new RegExp(`${corner}: [0-9.]+`, 'u'), `${corner}: ${found.value}`),
        found.expecting,
      );
    });
    expect(added.length).toBeGreaterThan(0);
    expect(unnoticed(body, given + added.join(''))).toEqual([]);
  });

  it('may be of a condition', () => {
    const body = supplyCheck('{weight: look, at-least: 11.8 V}', ', asleep: 30 min').replace(
      'in: [key-on]',
      'in: [rest]',
    );
    const proof =
      '  - given: {instruments: {module: {accuracy: 0 V, shows: 0.001 V}}, state: rest, conditions: {asleep: 50 min}, readings: {supply: 11.799 V}}\n    expect: {supply: {supply: out look}}\n';
    const found = suggested(body, proof).find((one) => one?.name === 'asleep');
    expect(found).toMatchObject({ unit: 'min', expecting: 'not-taken' });
    expect(Number(found?.value)).toBeLessThan(30);
  });

  it('is none where no proof judges the check', () => {
    expect(suggested(limit, '')).toEqual([null, null, null, null]);
  });
});
