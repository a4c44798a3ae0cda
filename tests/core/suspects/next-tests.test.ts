import { describe, expect, it } from 'vitest';
import type { RankedTest } from '../../../src/core/suspects/ranking.ts';
import { keyOn } from '../../support/judge.ts';
import { benchChecks, benchPack, rank, signals } from './bench-pack.ts';

const rated = 'costs: {labour-rate: 60 / h}\n';
const lowLeftRear = keyOn(`{${signals({ LR: '0.50 V' })}, supply: 12.50 V}`);
const ids = (tests: readonly RankedTest[]): string[] => tests.map(({ id }) => id);
const named = (tests: readonly RankedTest[], id: string): RankedTest => {
  const found = tests.find((one) => one.id === id);
  if (!found) throw new Error(`no test ${id}`);
  return found;
};

describe('tests that could be done next', () => {
  const { nextTests, suspects } = rank(lowLeftRear + rated);
  const arm = named(nextTests, 'try-arm.LR');

  it('begin with the one that saves most', () => {
    expect(ids(nextTests)[0]).toBe('try-arm.LR');
    const saves = nextTests.map((one) => one.saves ?? 0);
    expect(saves).toEqual([...saves].sort((a, b) => b - a));
    expect(saves[0]).toBeGreaterThan(0);
  });

  it('bear what they take, with their preparation, and what to heed', () => {
    expect(arm).toMatchObject({ title: 'Move the arm, LR', minutes: 12, cautions: ['mind your head'] });
  });

  it('to look at a component show what the tests that confirm it show', () => {
    expect(named(nextTests, 'inspected sensor.LR').cautions).toEqual(['mind your head']);
  });

  it('tell what each outcome would change', () => {
    const [smooth, stuck] = arm.outcomes;
    expect((smooth?.chance ?? 0) + (stuck?.chance ?? 0)).toBeCloseTo(1, 12);
    expect(stuck?.leader).toBe('sensor.LR');
    expect(smooth?.leader).toBe('wire.LR');
    expect(stuck?.probability).toBeGreaterThan(suspects[0]?.probability ?? 1);
  });

  it('save no more than one that loses nothing could', () => {
    // What knowing would be worth: the least that may be lost now.
    const p = suspects.find(({ id }) => id === 'wire.LR')?.probability ?? 0;
    const best = Math.min(300, (1 - (suspects[0]?.probability ?? 0)) * 500, (1 - p) * 380);
    for (const { saves } of nextTests) expect(saves).toBeLessThan(best);
  });

  it('that tell nothing of what is wrong cost what they cost, and are not credited with the next', () => {
    expect(named(nextTests, 'inspected sensor.RF').saves).toBeLessThan(0);
  });

  it('carry bits, and no saving without a labour rate; then they go by bits a minute', () => {
    const unpriced = rank(lowLeftRear).nextTests;
    expect(unpriced.every(({ saves }) => saves === null)).toBe(true);
    const pace = unpriced.map(({ bits, minutes }) => bits / minutes);
    expect(pace).toEqual([...pace].sort((a, b) => b - a));
    expect(named(unpriced, 'try-arm.LR').bits).toBeCloseTo(arm.bits, 12);
  });

  it('go by bits a minute where none saves anything', () => {
    const dear = rank(`${lowLeftRear}costs: {labour-rate: 6000 / h}\n`).nextTests;
    expect(dear.every(({ saves }) => (saves ?? 0) < 0)).toBe(true);
    expect(ids(dear)).toEqual(ids(rank(lowLeftRear).nextTests));
  });

  it('cost their minutes, as far as they need not be done in any case', () => {
    const free = benchPack.replaceAll(/minutes: (6|12|20)\b/gu, 'minutes: 0');
    const before = named(rank(lowLeftRear + rated, free).nextTests, 'try-arm.LR').saves ?? 0;
    expect(arm.neededAnyway).toBeGreaterThan(0.3);
    expect(before - (arm.saves ?? 0)).toBeGreaterThanOrEqual(12 * (1 - arm.neededAnyway) - 1e-9);
  });

  it('are at most ten', () => {
    const many = Array.from(
      { length: 14 },
      (_, index) => `  - id: t${index}
    title: One of many
    minutes: 5
    outcomes:
      - {id: yes, title: so, how: {battery: usually, others: rarely}}
      - {id: no, title: not so, how: {battery: rarely, others: usually}}
`,
    ).join('');
    expect(rank(lowLeftRear, benchPack + many).nextTests).toHaveLength(10);
  });
});

describe('a test is left out', () => {
  const listed = (job: string): string[] => ids(rank(job).nextTests);
  const off = signals({ LR: '0.50 V' });

  it('once it is on record, and stands again once it is stale', () => {
    const pins = '{at: 2026-03-02T09:00, did: tested, what: pins, found: good}';
    const low = keyOn(`{${signals()}, supply: 11.00 V}`);
    expect(listed(low)).toContain('pins');
    expect(listed(`${low}log: [${pins}]\n`)).not.toContain('pins');
    const work = '{at: 2026-03-02T09:10, did: replaced, what: compressor}';
    expect(listed(`${low}log: [${pins}, ${work}]\n`)).toContain('pins');
  });

  it('where readings have answered it', () => {
    const several = signals({ LR: '0.50 V', LF: '0.50 V' });
    expect(listed(keyOn(`{${several}}`))).toContain('reference-at-plug');
    expect(listed(keyOn(`{${several}, reference: 5.00 V}`))).not.toContain('reference-at-plug');
  });

  it('until what must come first is on record', () => {
    const job = keyOn(`{${off}, supply: 11.00 V}`);
    expect(listed(job)).not.toContain('other-module');
    expect(
      listed(`${job}log: [{at: 2026-03-02T09:00, did: tested, what: pins, found: low}]\n`),
    ).not.toContain('other-module');
    expect(listed(`${job}log: [{at: 2026-03-02T09:00, did: tested, what: pins, found: good}]\n`)).toContain(
      'other-module',
    );
  });

  it('where its outcomes say nothing', () => {
    const mute = `  - id: mute
    title: Says nothing
    minutes: 1
    outcomes: [{id: yes, title: so}, {id: no, title: not so}]
  - id: deaf
    title: Says the same of all
    minutes: 1
    outcomes: [{id: yes, title: so, how: {others: usually}}, {id: no, title: not so, how: {others: rarely}}]
`;
    const next = ids(rank(lowLeftRear, benchPack + mute).nextTests);
    expect(next).not.toContain('mute');
    expect(next).not.toContain('deaf');
  });
});

describe('two tests that only pay together', () => {
  // Four suspects alike, of which an eye sees nothing; only whether two halves agree tells which part to fit.
  const coin = (id: string, yes: readonly string[]): string => `  - id: ${id}
    title: A half
    minutes: 6
    outcomes:
      - {id: yes, title: so, how: {${yes.map((one) => `${one}: 0.98`).join(', ')}, others: 0.02}}
      - {id: no, title: not so, how: {${yes.map((one) => `${one}: 0.02`).join(', ')}, others: 0.98}}
`;
  const one = (id: string): string =>
    `  - {id: ${id}, title: ${id}, prior: 1, inspect: {minutes: 3, sees: 0.004}, wrong-part: {amount: 300, minutes: 0}, expects: [{group: supply, shows: low, how: usually}]}\n`;
  const pack = `${benchChecks}
suspects-basis: {kind: from-memory}
something-else: {share: 0.001}
escalate: {amount: 100}
minutes-basis: {kind: from-memory}
evidence: [{id: supply, title: Supply, sources: [{finding: bench/supply}]}]
suspects:
${['a', 'b', 'c', 'd'].map(one).join('')}tests:
${coin('first', ['a', 'b'])}${coin('second', ['a', 'c'])}`;

  const low = `${keyOn('{supply: 11.00 V}')}${rated}`;

  it('are both worth doing', () => {
    const { nextTests } = rank(low, pack);
    expect(ids(nextTests)).toEqual(['first', 'second']);
    for (const { saves } of nextTests) expect(saves).toBeGreaterThan(20);
    const [first] = rank(low, pack.slice(0, pack.indexOf('  - id: second'))).nextTests;
    expect(first?.id).toBe('first');
    expect(first?.saves).toBeLessThan(0);
  });
});
