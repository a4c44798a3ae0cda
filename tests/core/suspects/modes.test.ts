import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { keyOn, packProblems } from '../../support/judge.ts';
import { benchChecks, rank, signals } from './bench-pack.ts';

/** A valve that leaks slows the filling and hisses, one that is stuck shut does neither; and a module with one bad input. */
const pack = `${benchChecks}suspects-basis: {kind: from-memory}
evidence:
  - {id: corners, title: Corners, values: corners, sources: [{corners: [bench/signal]}]}
  - {id: tank, title: Tank, sources: [{finding: bench/tank}]}
  - {id: hiss, title: Hiss, values: out, by-chance: 0.1, sources: [{symptom: noise, is: [hiss]}]}
  - id: stance
    title: Stance
    values: [elsewhere, LF, RF, LR, RR, all-low]
    by-chance: 0.3
    sources: [{said: LR, of: {where: [LR], sits: [low, high]}}, {said: all-low, of: {where: [all], sits: [low]}}]
something-else: {share: 0.05}
escalate: {amount: 300}
suspects:
  - id: valve
    title: valve
    prior: 2
    wrong-part: {amount: 100, minutes: 30}
    confirm: [{test: port, found: air, or: [{test: command, found: rises}]}]
    modes:
      - {id: leaks, title: leaks, share: 0.6, expects: [{group: tank, shows: low, how: 0.8}, {group: hiss, shows: out, how: 0.9}]}
      - {id: shut, title: stuck shut, share: 0.4, expects: [{group: stance, shows: all-low, how: 0.7}]}
  - id: pump
    title: pump
    prior: 2
    wrong-part: {amount: 200, minutes: 30}
    expects: [{group: tank, shows: low, how: 0.8}, {group: stance, shows: all-low, how: 0.5}]
  - id: control-module
    title: control module
    prior: 1
    wrong-part: {amount: 600, minutes: 30}
    modes:
      - {id: one-input, title: reads one signal wrong, per: corner, share: 0.5, expects: [{group: corners, shows: own, how: 0.9}, {group: stance, shows: own, how: 0.5}]}
      - {id: dead, title: dead, share: 0.5}
tests:
  - id: port
    title: Air at the port
    minutes: 2
    outcomes:
      - {id: quiet, title: quiet, how: {'valve:leaks': 0.1, others: 0.97}}
      - {id: air, title: air, how: {'valve:leaks': 0.9, others: 0.03}}
  - id: command
    title: Lower on command
    minutes: 4
    outcomes:
      - {id: moves, title: moves, how: {'valve:shut': 0.1, others: 0.95}}
      - {id: rises, title: only rises, how: {'valve:shut': 0.9, others: 0.05}}
`;

const rated = 'costs: {labour-rate: 60 / h}\n';

const named = <T extends { readonly id: string }>(all: readonly T[], id: string): T => {
  const one = all.find((other) => other.id === id);
  if (!one) throw new Error(`no ${id}`);
  return one;
};

const low = keyOn('{tank: 60 psi}');
const hiss = 'symptoms: {noise: hiss, checked: yes}\n';
const of = (head: string, id: string) => named(rank(head + rated, pack).suspects, id);

describe('a suspect that fails in several ways', () => {
  it('is told with the way that fits, and how sure that is', () => {
    const leaking = of(`${low}${hiss}`, 'valve');
    expect(leaking.mode).toMatchObject({ id: 'leaks', title: 'leaks' });
    expect(leaking.mode?.probability).toBeGreaterThan(0.9);
    const stuck = of('symptoms: {where: all, sits: low, checked: yes}\n', 'valve');
    expect(stuck.mode?.id).toBe('shut');
  });

  it('shows together what belongs together', () => {
    // Both signs of one way raise it more than a sign of each.
    const both = of(`${low}${hiss}`, 'valve').probability;
    const mixed = of(
      `${low}symptoms: [{noise: hiss, checked: yes}, {where: all, sits: low, checked: yes}]\n`,
      'valve',
    );
    expect(both).toBeGreaterThan(0.75);
    expect(mixed.probability).toBeLessThan(both);
  });

  it('is at one corner where that way is, and every finding of it at that one', () => {
    const module = of(
      `${keyOn(`{${signals({ LR: '4.6 V' })}}`)}symptoms: {where: LR, sits: low, checked: yes}\n`,
      'control-module',
    );
    expect(module.mode).toMatchObject({ id: 'one-input.LR', title: 'reads one signal wrong, LR' });
    expect(module.mode?.probability).toBeGreaterThan(0.9);
  });

  it('has hypotheses that sum to 1, and a share that is the sum of its ways', () => {
    const tank = fc.integer({ min: 40, max: 130 });
    fc.assert(
      fc.property(tank, fc.boolean(), (psi, hisses) => {
        const { hypotheses, suspects } = rank(
          `${keyOn(`{tank: ${psi} psi}`)}${hisses ? hiss : 'symptoms: {where: all, sits: low, checked: yes}\n'}${rated}`,
          pack,
        );
        expect(hypotheses.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 9);
        for (const { id, probability } of suspects) {
          const own = hypotheses.filter((one) => one.id.split(' + ').includes(id));
          expect(own.reduce((sum, one) => sum + one.probability, 0)).toBeCloseTo(probability, 9);
        }
      }),
      { numRuns: 30 },
    );
  });

  it('is told apart by tests that name the way', () => {
    const { nextTests } = rank(`${low}${hiss}${rated}`, pack);
    const [quiet, air] = named(nextTests, 'port').outcomes;
    expect(air?.leader).toBe('valve');
    expect(quiet?.leader).toBe('pump');
    // Over both ways, by their shares: 0.6 × 0.9 + 0.4 × 0.03, slips apart.
    expect(air?.under.get('valve')).toBeCloseTo(0.98 * (0.6 * 0.9 + 0.4 * 0.03) + 0.01, 2);
  });

  it('is confirmed by the one test or by the other', () => {
    const log = (what: string, found: string): string =>
      `log:\n  - {at: "2026-03-02T09:00", did: tested, what: ${what}, found: ${found}}\n`;
    const confirmed = (more: string): boolean | undefined =>
      rank(`${low}${hiss}${more}${rated}`, pack).advice?.conditions.find(({ id }) => id === 'confirmed')?.met;
    expect(confirmed('')).toBe(false);
    expect(confirmed(log('port', 'air'))).toBe(true);
    expect(confirmed(log('command', 'rises'))).toBe(true);
    expect(confirmed(log('command', 'moves'))).toBe(false);
  });
});

describe('the reader of modes', () => {
  it('wants shares that add up to 1, and words that the group has', () => {
    expect(packProblems(pack)).toEqual([]);
    expect(packProblems(pack.replace('share: 0.6', 'share: 0.7'))).toEqual(['wrong-value']);
    expect(packProblems(pack.replace('said: all-low', 'said: all-lwo'))).toEqual(['unknown-name']);
    expect(packProblems(pack.replace("{'valve:leaks': 0.1", "{'valve:leeks': 0.1"))).toEqual([
      'unknown-name',
    ]);
  });
});
