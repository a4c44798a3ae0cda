import type { Finding } from '../../../src/core/finding.ts';
import type { Job } from '../../../src/core/job.ts';
import type { Pack } from '../../../src/core/pack.ts';
import { rankSuspects } from '../../../src/core/suspects/rank.ts';
import type { Ranking } from '../../../src/core/suspects/ranking.ts';
import { suspectModel } from '../../../src/core/suspects/suspect-model.ts';
import { weighSuspects } from '../../../src/core/suspects/weigh.ts';
import type { Worksheet } from '../../../src/core/worksheet.ts';
import { judge } from '../../support/judge.ts';

/** Checks that the small packs of these tests rest on. */
export const benchChecks = `checks:
  - {id: signal, kind: range, title: Signal, of: position, in: [key-on, running], tiers: [{weight: hold, between: [1 V, 4 V]}], basis: {kind: common-practice}}
  - {id: supply, kind: range, title: Supply, of: supply, in: [key-on, running], tiers: [{weight: look, between: [11.5 V, 14.8 V]}], basis: {kind: common-practice}}
  - {id: battery, kind: range, title: Battery, of: battery, in: [key-on, running], tiers: [{weight: look, at-least: 11.5 V}], basis: {kind: common-practice}}
  - {id: reference, kind: range, title: Reference, of: reference, in: [key-on, running], tiers: [{weight: look, between: [4.75 V, 5.25 V]}], basis: {kind: common-practice}}
  - {id: tank, kind: range, title: Tank, of: tank, in: [key-on, running], tiers: [{weight: look, at-least: 90 psi}], basis: {kind: common-practice}}
  - {id: codes, kind: stored-codes, title: Codes, weights: {stored: hold}, basis: {kind: common-practice}}
`;

/** Groups of evidence over them. */
export const benchEvidence = `suspects-basis: {kind: from-memory}
evidence:
  - {id: corners, title: Corners, levelled: true, sources: [{corners: [bench/signal]}, {code-means: [signal-range]}]}
  - {id: supply, title: Supply, sources: [{finding: bench/supply}, {code-means: [supply-range]}]}
  - {id: reference, title: Reference, sources: [{finding: bench/reference}]}
  - {id: tank, title: Tank, sources: [{finding: bench/tank}]}
`;

/** A few suspects, and tests that tell them apart. */
export const benchSuspects = `something-else: {share: 0.07}
escalate: {amount: 300}
suspects:
  - id: sensor
    per: corner
    title: position sensor
    prior: 4
    wrong-part: {amount: 140, minutes: 60}
    confirm: [{test: try-arm, found: stuck}]
    expects: [{group: corners, shows: corner, how: usually}]
  - id: wire
    per: corner
    title: wire of the sensor
    prior: 2
    wrong-part: {amount: 20, minutes: 60}
    expects: [{group: corners, shows: corner, how: usually}]
  - id: control-module
    title: control module
    prior: 3
    wrong-part: {amount: 600, minutes: 90}
    confirm: [{test: pins, found: good}, {group: reference, shows: within}]
    expects: [{group: supply, shows: low, how: often}, {group: corners, shows: several, how: sometimes}]
  - id: reference-circuit
    title: reference circuit
    prior: 2
    wrong-part: {amount: 30, minutes: 60}
    expects: [{group: reference, shows: low, how: usually}, {group: corners, shows: several, how: sometimes}]
  - id: battery
    title: battery
    prior: 3
    wrong-part: {amount: 180, minutes: 20}
    expects: [{group: supply, shows: low, how: usually}]
  - id: tank
    title: tank
    layouts: [four-corner-air]
    prior: 1
    wrong-part: {amount: 200, minutes: 60}
    expects: [{group: tank, shows: low, how: usually}]
minutes-basis: {kind: from-memory}
cautions: [{id: mind, text: mind your head}]
tests:
  - id: try-arm
    per: corner
    title: Move the arm
    minutes: 6
    set-up: {id: stands, minutes: 6}
    depends: [sensor]
    cautions: [mind]
    outcomes:
      - {id: smooth, title: it follows, how: {sensor: rarely, others: usually}}
      - {id: stuck, title: it does not, how: {sensor: usually, others: rarely}}
  - id: pins
    title: Feed at the pins
    minutes: 12
    outcomes:
      - {id: good, title: it stands, how: {battery: rarely, others: usually}}
      - {id: low, title: it falls, how: {battery: usually, others: rarely}}
  - id: reference-at-plug
    title: Reference at the plug
    minutes: 6
    group: reference
    outcomes:
      - {id: right, title: it is right, how: {reference-circuit: rarely, others: usually}}
      - {id: wrong, title: it is not, how: {reference-circuit: usually, others: rarely}}
  - id: other-module
    title: Another module
    minutes: 20
    after: [{test: pins, found: good}]
    outcomes:
      - {id: gone, title: the fault is gone, how: {control-module: usually, others: never}}
      - {id: stays, title: it stays, how: {control-module: rarely, others: always}}
`;

export const benchPack = benchChecks + benchEvidence + benchSuspects;

/** The ranking of a sheet that has one. */
export const rankingOf = ({ ranking }: Worksheet): Ranking => {
  if (ranking === null) throw new Error('nothing was ranked');
  return ranking;
};

/** The ranking of a job's suspects by findings. */
export const ranked = (job: Job, pack: Pack, findings: readonly Finding[]): Ranking | null => {
  const weighed = weighSuspects(job, suspectModel([pack], job.vehicle), findings);
  return weighed && rankSuspects(weighed);
};

/** What a job's readings come to with a pack. */
export const rank = (job: string, pack: string = benchPack): Ranking => rankingOf(judge(pack, job));

export const probabilityOf = (ranking: Ranking, id: string): number => {
  const found = ranking.suspects.find((one) => one.id === id);
  if (!found) throw new Error(`no suspect ${id}`);
  return found.probability;
};

/** How probable it is that something is at fault alone, with no other beside it. */
export const aloneOf = ({ hypotheses }: Ranking, id: string): number => {
  const found = hypotheses.find((one) => one.id === id);
  if (!found) throw new Error(`no hypothesis ${id}`);
  return found.probability;
};

/** Signals of all four corners, those that are given in place of good ones. */
export const signals = (given: Partial<Readonly<Record<'LF' | 'RF' | 'LR' | 'RR', string>>> = {}): string => {
  const all = { LF: '2.50 V', RF: '2.50 V', LR: '2.50 V', RR: '2.50 V', ...given };
  return `position: {${Object.entries(all)
    .map(([corner, value]) => `${corner}: ${value}`)
    .join(', ')}}`;
};
