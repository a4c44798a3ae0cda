import { benchChecks, benchEvidence, benchSuspects } from '../suspects/bench-pack.ts';

/** The small packs of these tests want readings only where a test asks for them, but for the signals. */
const checks = benchChecks
  .replace(
    'id: supply, kind: range',
    'id: supply, danger: {forbids: [charge, crank], cautions: [mind]}, kind: range, wanted: in-test',
  )
  .replaceAll(/id: (battery|reference|tank), kind: range/gu, 'id: $1, kind: range, wanted: in-test');

export const pack = `${checks}${benchEvidence}${benchSuspects}
dangers:
  - {of: on-stops, forbids: [drive], cautions: [mind]}
act-uses:
  - {act: crank, tests: [other-module]}
  - {act: drive, steps: [road-test]}
asks:
  - {id: battery-by-meter, title: Read the battery by meter, read: [battery], in: key-on, when: {finding: bench/signal}}
  - {id: supply-twice, title: Read supply and battery again, again: [supply], in: key-on, when: {finding: bench/battery}}
steps:
  - {id: authorise-cost, title: Have the cost authorised, when: {did: [ordered, work]}, answered-if: {cost: authorised}, answered-by: [{did: authorised, what: cost}], minutes: 5}
  - {id: road-test, title: Road test, when: {did: work}, answered-by: [{did: drove, what: road-test}], minutes: 20}
  - {id: hand-over, title: Hand over, after: [road-test], behind: release, answered-by: [{did: released, what: vehicle}], minutes: 10}
hold-points:
  - {id: release, title: Release, clear-when: {all: [{no-finding: {weight: hold}}, {steps: {except: [hand-over]}}, {evidence: fresh}]}}
`;

/** The same with a loop: a repair for each fault, a retest for each repair, and a learn that may fail. */
export const loopPack = pack.replace(
  /steps:\n[\s\S]*hold-points:/u,
  `steps:
  - {id: authorise-cost, title: Have the cost authorised, when: {did: [ordered, work]}, answered-if: {cost: authorised}, answered-by: [{did: authorised, what: cost}], minutes: 5}
  - {id: repair, each: fault, title: 'Repair: {component}', after: [authorise-cost], minutes: 5}
  - {id: learn, title: Learn the heights, when: {did: [replaced, repaired, adjusted]}, after: [repair], answered-by: [{did: calibrated, what: ride-height}], undone-by: [{did: work}], minutes: 10}
  - {id: clear, title: Clear and read again, when: {did: work}, after: [learn], answered-if: {all: [{did: cleared, what: codes}, {code-list: after-clear}]}, undone-by: [{did: work}], minutes: 5}
  - {id: retest, each: work, title: 'Show that it helped: {component}', after: [learn, clear], minutes: 5}
  - {id: road-test, title: Road test, when: {did: work}, after: [repair, clear, retest], answered-by: [{did: drove, what: road-test}], undone-by: [{did: work}], minutes: 20}
  - {id: hand-over, title: Hand over, after: [authorise-cost, repair, learn, clear, retest, road-test], behind: release, answered-by: [{did: released, what: vehicle}], minutes: 10}
hold-points:`,
);
