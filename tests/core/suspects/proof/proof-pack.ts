import type { Pack } from '../../../../src/core/pack.ts';
import { packOf } from '../../../support/judge.ts';

const checks = `checks:
  - {id: signal, kind: range, title: Signal, of: position, in: [key-on], tiers: [{weight: hold, between: [1 V, 4 V]}], basis: {kind: common-practice}}
  - {id: supply, kind: range, title: Supply, of: supply, in: [key-on], tiers: [{weight: look, between: [11.5 V, 14.8 V]}], basis: {kind: common-practice}}
  - {id: reference, kind: range, title: Reference, of: reference, in: [key-on], tiers: [{weight: look, between: [4.75 V, 5.25 V]}], basis: {kind: common-practice}}
  - {id: battery, kind: range, title: Battery, of: battery, in: [key-on], tiers: [{weight: look, at-least: 11.5 V}], basis: {kind: common-practice}}
suspects-basis: {kind: from-memory}
minutes-basis: {kind: from-memory}
evidence:
  - {id: corners, title: Corners, sources: [{corners: [bench/signal]}]}
  - {id: supply, title: Supply, sources: [{finding: bench/supply}]}
  - {id: reference, title: Reference, sources: [{finding: bench/reference}]}
  - {id: battery, title: Battery, sources: [{finding: bench/battery}]}
something-else: {share: 0.07}
`;

/** A pack with four groups of evidence (corners, supply, reference, battery) and the suspects and tests given. */
export const proofPack = (
  suspects: readonly string[],
  tests: readonly string[] = [],
  terms = 'escalate: {amount: 300}',
): Pack =>
  packOf(
    `${checks}${terms}\nsuspects:\n${suspects.map((one) => `  - ${one}\n`).join('')}${
      tests.length > 0 ? `tests:\n${tests.map((one) => `  - ${one}\n`).join('')}` : ''
    }`,
  );

/** A suspect in one line; what is not given is small and cheap. */
export const suspect = (id: string, more: string, amount = 10): string =>
  `{id: ${id}, title: ${id}, prior: 1, wrong-part: {amount: ${amount}, minutes: 10}, ${more}}`;
