import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Move } from '../../../src/core/proofs/moves.ts';
import { movesOf } from '../../../src/core/proofs/moves.ts';
import { quantitiesOf } from '../../../src/core/proofs/quantities.ts';
import { packOf, packProblems } from '../../support/judge.ts';
import { supplyCheck } from './bench-pack.ts';

const movesIn = (body: string): readonly Move[] => {
  const pack = packOf(body);
  return pack.checks.flatMap((check) => movesOf(pack, check));
};

/** Where each quantity goes: by 2 % down and up, then by 10 %. */
const goes = (body: string): Record<string, string[]> => {
  const found: Record<string, string[]> = {};
  for (const { quantity, to } of movesIn(body)) {
    found[quantity.text] = [...(found[quantity.text] ?? []), to];
  }
  return found;
};

describe('moving a limit', () => {
  it('moves it by a share of its own size, in its own unit', () => {
    expect(goes(supplyCheck('{weight: look, at-least: 11.8 V}'))).toEqual({
      '11.8 V': ['11.564 V', '12.036 V', '10.62 V', '12.98 V'],
    });
    expect(goes(supplyCheck('{weight: look, at-most: 250 mV}'))).toEqual({
      '250 mV': ['245 mV', '255 mV', '225 mV', '275 mV'],
    });
  });

  it('moves a limit at 0 and the ends of a band around 0 by a share of the width', () => {
    expect(goes(supplyCheck('{weight: look, between: [-0.8 V, 0.2 V]}'))).toEqual({
      '-0.8 V': ['-0.82 V', '-0.78 V', '-0.9 V', '-0.7 V'],
      '0.2 V': ['0.18 V', '0.22 V', '0.1 V', '0.3 V'],
    });
    expect(goes(supplyCheck('{weight: look, between: [0 V, 5 V]}'))).toMatchObject({
      '0 V': ['-0.1 V', '0.1 V', '-0.5 V', '0.5 V'],
    });
  });

  it('takes the width in the unit of the end that it moves', () => {
    expect(goes(supplyCheck('{weight: look, between: [-500 mV, 0.5 V]}'))).toEqual({
      '-500 mV': ['-520 mV', '-480 mV', '-600 mV', '-400 mV'],
      '0.5 V': ['0.48 V', '0.52 V', '0.4 V', '0.6 V'],
    });
  });

  it('moves a lone limit at 0 by a share of the other limits of its check', () => {
    const tiers = '{weight: hold, at-least: 0 V}, {weight: look, at-least: 3 V}';
    expect(goes(supplyCheck(tiers))['0 V']).toEqual(['-0.06 V', '0.06 V', '-0.3 V', '0.3 V']);
    expect(goes(supplyCheck('{weight: hold, at-least: 0 V}'))['0 V']?.[1]).toBe('0.02 V');
  });

  it('never moves one end of a band past the other', () => {
    expect(goes(supplyCheck('{weight: look, between: [13.5 V, 14.0 V]}'))).toEqual({
      '13.5 V': ['13.23 V', '13.77 V', '12.15 V', '13.95 V'],
      '14.0 V': ['13.72 V', '14.28 V', '13.55 V', '15.4 V'],
    });
  });

  it('does not move an end that cannot go anywhere', () => {
    const moves = movesIn(supplyCheck('{weight: look, between: [5 V, 5 V]}'));
    expect(moves.map(({ quantity, way, to }) => [quantity.path.at(-1), way, to])).toEqual([
      [0, 'down', '4.9 V'],
      [0, 'down', '4.5 V'],
      [1, 'up', '5.1 V'],
      [1, 'up', '5.5 V'],
    ]);
  });

  const cranking = (points: string): string =>
    `checks: [{id: crank, kind: cranking, title: Cranking, of: battery, temperature: battery-temperature, in: [cranking], weight: look, at-least: ${points}, basis: {kind: from-memory}}]`;

  it('moves points of a table by a share of their column, and temperatures never by their own size', () => {
    expect(goes(cranking('[[0 F, 8.5 V], [70 F, 9.6 V]]'))).toEqual({
      '0 F': ['-1.4 F', '1.4 F', '-7 F', '7 F'],
      '8.5 V': ['8.478 V', '8.522 V', '8.39 V', '8.61 V'],
      '70 F': ['68.6 F', '71.4 F', '63 F', '77 F'],
      '9.6 V': ['9.578 V', '9.622 V', '9.49 V', '9.71 V'],
    });
  });

  it('keeps the points of a table in their order', () => {
    const moves = goes(cranking('[[0 F, 8.5 V], [1 F, 8.6 V], [100 F, 9.6 V]]'));
    expect(moves['0 F']).toEqual(['-2 F', '0.9 F', '-10 F', '0.9 F']);
    expect(moves['1 F']).toEqual(['0.1 F', '3 F', '0.1 F', '11 F']);
  });

  it('leaves what only words depend on, and words', () => {
    const leak =
      'checks: [{id: leak, kind: leak-down, title: Leak, of: tank, in: [rest], reserve: 20 psi, tiers: [{weight: look, at-most: 3 psi/h}], basis: {kind: from-memory, note: 2 psi/h in a book}, says: {high: over 3 psi/h}}]';
    expect(Object.keys(goes(leak))).toEqual(['3 psi/h']);
  });

  it('gives the check as its kind reads it', () => {
    const [move] = movesIn(supplyCheck('{weight: look, at-least: 250 mV}'));
    expect(move?.moved.parameters).toMatchObject({ tiers: [{ limits: { low: 0.245, high: null } }] });
    expect(move?.moved.id).toBe('bench/supply');
  });
});

describe('moving any limits', () => {
  const number = fc
    .tuple(fc.integer({ min: -99_999, max: 99_999 }), fc.integer({ min: 0, max: 4 }))
    .map(([digits, places]) => (digits / 10 ** places).toFixed(places));
  const quantity = fc.tuple(number, fc.constantFrom(' V', ' mV', 'V', '')).map(([n, unit]) => `${n}${unit}`);
  const volts = (text: string): number => Number.parseFloat(text) * (text.endsWith('mV') ? 0.001 : 1);
  const band = fc
    .tuple(quantity, quantity)
    .map((ends) => [...ends].sort((a, b) => volts(a) - volts(b)))
    .map(([low, high]) => `between: [${low}, ${high}]`);
  const limits = fc.oneof(
    quantity.map((text) => `at-least: ${text}`),
    quantity.map((text) => `at-most: ${text}`),
    band,
  );
  const tiers = fc
    .array(fc.tuple(fc.constantFrom('hold', 'look', 'note'), limits), { minLength: 1, maxLength: 4 })
    .map((all) => all.map(([weight, own]) => `{weight: ${weight}, ${own}}`).join(', '));

  it('never makes a pack unreadable, whatever its limits', () => {
    fc.assert(
      fc.property(tiers, (all) => {
        const body = supplyCheck(all);
        for (const { quantity: moved, to } of movesIn(body)) {
          const [, place, key, end] = moved.path;
          const tier = all.match(/\{[^}]*\}/gu)?.[Number(place)] ?? '';
          const ends = tier.match(/\[(.*), (.*)\]/u)?.slice(1) ?? [];
          const changed =
            end === undefined
              ? tier.replace(new RegExp(`${key}: [^,}]*`, 'u'), `${key}: ${to}`)
              : tier.replace(/\[.*\]/u, `[${(end === 0 ? [to, ends[1]] : [ends[0], to]).join(', ')}]`);
          expect(packProblems(body.replace(tier, changed))).toEqual([]);
        }
      }),
      { numRuns: 60 },
    );
  });

  it('moves each by both shares, up and down, unless something stands in the way', () => {
    fc.assert(
      fc.property(quantity, (text) => {
        const pack = packOf(supplyCheck(`{weight: look, at-least: ${text}}`));
        const [check] = pack.checks;
        if (!check) throw new Error('the pack has a check');
        const moves = movesOf(pack, check);
        expect(moves.map(({ share, way }) => `${way} ${share}`)).toEqual([
          'down 0.02',
          'up 0.02',
          'down 0.1',
          'up 0.1',
        ]);
        expect(quantitiesOf(check)).toHaveLength(1);
        const values = moves.map(({ to }) => volts(to));
        const own = volts(text);
        expect([values[2], values[0], own, values[1], values[3]]).toEqual(
          [...values, own].sort((a, b) => a - b),
        );
      }),
      { numRuns: 60 },
    );
  });
});
