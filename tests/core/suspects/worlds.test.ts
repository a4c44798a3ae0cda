import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { keyOf, type Place } from '../../../src/core/key.ts';
import type { Piece } from '../../../src/core/suspects/evidence/evidence.ts';
import { spaces } from '../../../src/core/suspects/evidence/spaces.ts';
import type { Hypothesis } from '../../../src/core/suspects/hypotheses.ts';
import type { Suspect } from '../../../src/core/suspects/model.ts';
import { logsOf, posteriorOfLogs } from '../../../src/core/suspects/posterior.ts';
import { chancesInWorlds, marginals, tableInWorlds, worldsOf } from '../../../src/core/suspects/worlds.ts';
import { keyOn } from '../../support/judge.ts';
import { probabilityOf, rank, signals } from './bench-pack.ts';

const listed = (id: string, place: Place | null = null, more: Partial<Suspect> = {}): Hypothesis => ({
  id: keyOf(id, place),
  title: id,
  place,
  prior: 0.2,
  suspect: {
    id,
    per: place === null ? 'vehicle' : 'corner',
    title: id,
    layouts: null,
    prior: 1,
    raisedBy: [],
    raise: 5,
    wrongPart: { amount: 0, minutes: 0 },
    confirm: [],
    component: id,
    isPart: true,
    isCoded: false,
    repaired: true,
    inspect: { minutes: 3, sees: 0.35 },
    modes: [],
    expects: [],
    ...more,
  },
});

const row = (id: string, likelihoods: readonly number[], quiet = false): Piece => ({
  id,
  title: id,
  from: [id],
  observed: '',
  quiet,
  row: likelihoods,
  inWorlds: (worlds) => worlds.map(({ variants: [one = 0] }) => likelihoods[one] ?? 1),
});

const sensor = listed('sensor', 'LR');
const battery = listed('battery');
const tank = listed('tank');
const other: Hypothesis = { ...listed('something-else'), suspect: null };
const hypotheses = [sensor, battery, tank, other];
const priors = [0.3, 0.3, 0.3, 0.1];
const corner = row('corner', [0.85, 0.01, 0.01, 0.3]);
const supply = row('supply', [0.01, 0.85, 0.01, 0.3]);
const pairsOf = (rows: readonly Piece[], all = hypotheses) =>
  worldsOf(all, priors, rows).filter(({ members }) => members.length === 2);

describe('pairs of faults', () => {
  it('stand only where each explains telling evidence that the other does not', () => {
    expect(pairsOf([corner, supply]).map(({ id }) => id)).toEqual(['sensor.LR + battery']);
    expect(pairsOf([corner])).toEqual([]);
    // Both explain both alike.
    expect(pairsOf([row('a', [0.8, 0.8, 0.1, 0.3]), row('b', [0.8, 0.7, 0.1, 0.3])])).toEqual([]);
  });

  it('are not named by what a good vehicle shows', () => {
    const quiet = row('tank', [0.01, 0.01, 0.85, 0.3], true);
    expect(pairsOf([corner, quiet])).toEqual([]);
    expect(pairsOf([corner, supply, quiet]).map(({ id }) => id)).toEqual(['sensor.LR + battery']);
  });

  it('are never of something else, of what is not repaired, or of one component at one place', () => {
    const explainsAll = [row('a', [0.85, 0.01, 0.01, 0.01]), row('b', [0.01, 0.01, 0.01, 0.85])];
    expect(pairsOf(explainsAll)).toEqual([]);
    const meter = listed('meter', null, { repaired: false });
    expect(pairsOf([corner, supply], [sensor, meter, tank, other])).toEqual([]);
    const wire = listed('wire', 'LR', { component: 'sensor' });
    expect(pairsOf([corner, supply], [sensor, wire, tank, other])).toEqual([]);
    const elsewhere = listed('wire', 'RF', { component: 'sensor' });
    expect(pairsOf([corner, supply], [sensor, elsewhere, tank, other])).toHaveLength(1);
  });

  it('have a fifth of both priors multiplied', () => {
    expect(pairsOf([corner, supply])[0]?.prior).toBeCloseTo(0.2 * 0.3 * 0.3, 12);
  });

  it('are sixty at the most, the likeliest', () => {
    const many = Array.from({ length: 20 }, (_, index) => listed(`part-${index}`));
    const rows = many.map((_, at) =>
      row(
        `row-${at}`,
        many.map((_one, index) => (index === at ? 0.9 : 0.02)),
      ),
    );
    const even = many.map((_, index) => 1 / (20 + index));
    const pairs = worldsOf(many, even, rows).filter(({ members }) => members.length === 2);
    expect(pairs).toHaveLength(60);
    expect(pairs[0]?.id).toBe('part-0 + part-1');
    expect(pairs.map(({ members }) => members)).not.toContainEqual([18, 19]);
  });
});

describe('what two faults show together', () => {
  const worlds = [{ id: 'both', members: [0, 1], variants: [0, 1], prior: 1 }];

  it('is what either shows, whichever shows it more often, and sums to 1', () => {
    const [both] = chancesInWorlds(
      [
        [0.13, 0.85, 0.02],
        [0.33, 0.02, 0.65],
      ],
      spaces.sides,
      worlds,
    );
    expect(both?.reduce((sum, p) => sum + p, 0)).toBeCloseTo(1, 12);
    expect((both?.[1] ?? 0) / (both?.[2] ?? 1)).toBeCloseTo(0.85 / 0.65, 9);
    expect(both?.[0]).toBeLessThan(0.05);
  });

  it('is what one shows where the other shows nothing', () => {
    const [both] = chancesInWorlds(
      [
        [0.13, 0.85, 0.02],
        [0.99, 0.005, 0.005],
      ],
      spaces.sides,
      worlds,
    );
    for (const [place, p] of [0.13, 0.85, 0.02].entries()) expect(both?.[place]).toBeCloseTo(p, 12);
  });

  it('is several corners where each is off at its own', () => {
    const at = (own: string): number[] => spaces.corners.map((value) => (value === own ? 0.9 : 0.02));
    const [both] = chancesInWorlds([at('LR'), at('RF')], spaces.corners, worlds);
    const p = (value: (typeof spaces.corners)[number]): number => both?.[spaces.corners.indexOf(value)] ?? 0;
    expect(p('several')).toBeGreaterThan(0.7);
    expect(p('LR')).toBeLessThan(0.12);
    expect(p('RF')).toBeLessThan(0.12);
    const [same] = chancesInWorlds([at('LR'), at('LR')], spaces.corners, worlds);
    expect(same?.[spaces.corners.indexOf('LR')]).toBeGreaterThan(0.8);
  });

  it('is the unusual outcome of a test where one of them gives it', () => {
    const table = [
      [0.1, 0.9],
      [0.9, 0.1],
    ];
    expect(tableInWorlds(table, 0, [{ id: 'one', members: [1], variants: [1], prior: 1 }])).toEqual([
      [0.9],
      [0.1],
    ]);
    const [[usual = 0] = [], [unusual = 0] = []] = tableInWorlds(table, 0, worlds);
    expect(unusual).toBeCloseTo(0.9, 9);
    expect(usual + unusual).toBeCloseTo(1, 12);
  });
});

describe('the share of a suspect', () => {
  it('is over all worlds that it is part of', () => {
    const worlds = [
      { id: 'a', members: [0], variants: [0], prior: 1 },
      { id: 'b', members: [1], variants: [1], prior: 1 },
      { id: 'a + b', members: [0, 1], variants: [0, 1], prior: 1 },
    ];
    const [a, b] = marginals(worlds, [0.5, 0.2, 0.3], 2);
    expect(a).toBeCloseTo(0.8, 12);
    expect(b).toBeCloseTo(0.5, 12);
  });

  const chance = fc.double({ min: 0.01, max: 0.98, noNaN: true });
  it('is between its own alone and 1 whatever was observed, and all worlds sum to 1', () => {
    fc.assert(
      fc.property(
        fc.array(fc.array(chance, { minLength: 4, maxLength: 4 }), { minLength: 1, maxLength: 5 }),
        (likelihoods) => {
          const rows = likelihoods.map((one, index) => row(`row-${index}`, one));
          const worlds = worldsOf(hypotheses, priors, rows);
          const p = posteriorOfLogs(
            worlds.map(({ prior }) => prior),
            rows.map(({ inWorlds }) => logsOf(inWorlds(worlds))),
          );
          expect(p.reduce((sum, one) => sum + one, 0)).toBeCloseTo(1, 12);
          const pairs = p.slice(hypotheses.length).reduce((sum, one) => sum + one, 0);
          for (const [place, share] of marginals(worlds, p, hypotheses.length).entries()) {
            expect(share).toBeGreaterThanOrEqual((p[place] ?? 0) - 1e-12);
            expect(share).toBeLessThanOrEqual((p[place] ?? 0) + pairs + 1e-12);
          }
        },
      ),
      { seed: 5, numRuns: 200 },
    );
  });
});

describe('a vehicle with two faults', () => {
  const off = `${signals({ LR: '0.50 V' })}, supply: 11.00 V, tank: 60 psi`;
  const rated = 'costs: {labour-rate: 60 / h}\n';

  it('has both suspected, and the pair named where it beats any single fault by three to one', () => {
    const job = `${keyOn(`{${signals({ LR: '0.50 V' })}, tank: 60 psi}`)}${rated}`;
    const seen = ['sensor.LR', 'tank'].map(
      (what) => `{at: 2026-03-02T09:00, did: inspected, what: ${what}, found: fault-seen}`,
    );
    expect(rank(job).pair).toBeNull();
    const ranking = rank(`${job}log: [${seen.join(', ')}]\n`);
    expect(ranking.pair).toEqual(['sensor.LR', 'tank']);
    expect(probabilityOf(ranking, 'tank')).toBeGreaterThan(0.9);
    expect(probabilityOf(ranking, 'sensor.LR')).toBeGreaterThan(0.9);
    expect(ranking.hypotheses.reduce((sum, one) => sum + one.probability, 0)).toBeCloseTo(1, 12);
  });

  it('has no pair named where one fault explains all', () => {
    expect(rank(keyOn(`{${signals({ LR: '0.50 V' })}}`)).pair).toBeNull();
  });

  it('names pairs by both suspects in the hypotheses, the likelier first', () => {
    const pairs = rank(keyOn(`{${off}}`)).hypotheses.filter(({ id }) => id.includes(' + '));
    expect(pairs.map(({ id }) => id)).toContain('sensor.LR + tank');
    expect(pairs.map(({ probability }) => probability)).toEqual(
      pairs.map(({ probability }) => probability).toSorted((a, b) => b - a),
    );
  });
});
