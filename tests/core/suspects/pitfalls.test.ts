import { describe, expect, it } from 'vitest';
import { posterior } from '../../../src/core/suspects/posterior.ts';
import { judge, keyOn } from '../../support/judge.ts';
import { benchChecks, probabilityOf, rank, signals } from './bench-pack.ts';

/** Mistakes that such a ranking could make, each beside what it does instead. */

const codes = `codes: [${[
  '{code: C1A21, status: stored, means: signal-range}',
  '{code: C1A22, status: stored, means: circuit-open}',
  '{code: C1A23, status: stored, means: circuit-short}',
  '{code: C1A24, status: stored, means: supply-range}',
].join(', ')}]`;
const fourCodes = keyOn('{supply: 12.50 V}', `    ${codes}\n`);

const withGroups = (groups: readonly (readonly string[])[]): string => {
  const ids = groups.map((_, index) => `g${index}`);
  const evidence = groups.map(
    (means, index) => `  - {id: g${index}, title: Codes, sources: [{code-means: [${means.join(', ')}]}]}`,
  );
  const expects = (how: number) => ids.map((id) => `{group: ${id}, shows: out, how: ${how}}`).join(', ');
  return `${benchChecks}
suspects-basis: {kind: from-memory}
something-else: {share: 0.000001}
evidence:
${evidence.join('\n')}
suspects:
  - {id: control-module, title: module, prior: 8, wrong-part: {amount: 0, minutes: 0}, expects: [${expects(0.48)}]}
  - {id: sensor, title: sensor, prior: 92, wrong-part: {amount: 0, minutes: 0}, expects: [${expects(0.1)}]}
`;
};

describe('four codes of one cause', () => {
  const means = ['signal-range', 'circuit-open', 'circuit-short', 'supply-range'];

  it('as if they were independent would turn 8 % into 97 %', () => {
    const ranking = rank(fourCodes, withGroups(means.map((one) => [one])));
    expect(probabilityOf(ranking, 'control-module')).toBeCloseTo(0.97, 2);
  });

  it('as one group give 28 %', () => {
    const ranking = rank(fourCodes, withGroups([means]));
    expect(probabilityOf(ranking, 'control-module')).toBeCloseTo(0.28, 2);
  });
});

describe('something else', () => {
  const ordinary = `${benchChecks}
suspects-basis: {kind: from-memory}
something-else: {share: 0.07}
evidence:
  - {id: corners, title: Corners, values: out, sources: [{corners: [bench/signal]}]}
  - {id: supply, title: Supply, values: out, sources: [{finding: bench/supply}]}
suspects:
  - id: sensor
    title: sensor
    prior: 1
    wrong-part: {amount: 0, minutes: 0}
    expects: [{group: corners, shows: out, how: 0.17}, {group: supply, shows: out, how: 0.17}]
  - id: battery
    title: battery
    prior: 1
    wrong-part: {amount: 0, minutes: 0}
    expects: [{group: corners, shows: out, how: 0.17}, {group: supply, shows: out, how: 0.17}]
`;
  const two = keyOn(`{${signals({ LR: '0.50 V' })}, supply: 11.00 V}`);

  it('with a flat half would rise from 7 % to 38 % on two ordinary findings', () => {
    const often = 0.98 * 0.17 + 0.01;
    const flat = posterior(
      [0.465, 0.465, 0.07],
      [
        [often, often, 0.5],
        [often, often, 0.5],
      ],
    );
    expect(flat[2]).toBeCloseTo(0.38, 2);
  });

  it('with the background rate stays at 7 %', () => {
    expect(probabilityOf(rank(two, ordinary), 'something-else')).toBeCloseTo(0.07, 9);
  });
});

describe('a module and its supply wire', () => {
  const pack = `${benchChecks}
  - {id: pins, kind: agreement, title: Pins, of: supply, against: pin-supply, in: [key-on], tiers: [{weight: look, between: [-0.3 V, 0.3 V]}], basis: {kind: common-practice}}
channels:
  - {id: position, per: corner, title: position signal, quantity: voltage, unit: V, by: module, depends: []}
  - {id: supply, title: supply, quantity: voltage, unit: V, by: module, depends: []}
  - {id: pin-supply, title: supply at the pins, quantity: voltage, unit: V, by: meter, depends: []}
  - {id: battery, title: battery, quantity: voltage, unit: V, by: meter, depends: []}
  - {id: reference, title: reference, quantity: voltage, unit: V, by: meter, depends: []}
  - {id: tank, title: tank, quantity: pressure, unit: psi, by: gauge, depends: []}
suspects-basis: {kind: from-memory}
evidence:
  - {id: supply, title: Supply, sources: [{finding: bench/supply}, {code-means: [supply-range]}]}
  - {id: corners, title: Corners, sources: [{corners: [bench/signal]}]}
  - {id: pins, title: Pins, sources: [{finding: bench/pins}]}
suspects:
  - id: control-module
    title: control module
    prior: 3
    wrong-part: {amount: 600, minutes: 90}
    expects: [{group: supply, shows: low, how: usually}, {group: pins, shows: low, how: usually}]
  - id: supply-feed
    title: feed
    prior: 2
    wrong-part: {amount: 20, minutes: 60}
    expects: [{group: supply, shows: low, how: usually}]
`;
  const ratio = (readings: string, more = ''): number => {
    const ranking = rank(keyOn(readings, more), pack);
    return probabilityOf(ranking, 'control-module') / probabilityOf(ranking, 'supply-feed');
  };

  it('are as their priors, whatever else is read', () => {
    expect(ratio('{supply: 11.00 V}')).toBeCloseTo(1.5, 9);
    expect(ratio(`{supply: 11.00 V, battery: 12.50 V, ${signals()}}`, `    ${codes}\n`)).toBeCloseTo(1.5, 9);
    expect(ratio('{supply: 11.00 V, pin-supply: {why: no room for the probe}}')).toBeCloseTo(1.5, 9);
  });

  it('are told apart by a loaded measurement at its own pins', () => {
    expect(ratio('{supply: 11.00 V, pin-supply: 11.05 V}')).toBeLessThan(0.3);
    expect(ratio('{supply: 11.00 V, pin-supply: 12.40 V}')).toBeGreaterThan(20);
  });
});

describe('a code that no group is about', () => {
  const internal = [['internal-fault']] as const;
  const withCode = (means: string): string =>
    keyOn(`{${signals()}, supply: 12.50 V}`, `    codes: [{code: C1A71, status: stored, means: ${means}}]\n`);

  it('ranks nobody, though it is out: the list holds no code of the group', () => {
    expect(judge(withGroups(internal), withCode('other')).ranking).toBeNull();
  });

  it('and one that a group is about ranks', () => {
    expect(judge(withGroups(internal), withCode('internal-fault')).ranking).not.toBeNull();
  });
});
