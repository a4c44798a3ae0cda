import { preparePacks } from '../../src/core/prepare/prepared-packs.ts';
import { openJob, readJob } from '../../src/input/job/read-job.ts';
import { readShop } from '../../src/input/job/read-shop.ts';
import { readPack } from '../../src/input/pack/read-pack.ts';
import type { Problem } from '../../src/input/problem.ts';
import { packOf } from '../support/judge.ts';

/** A pack with a check, a step and everything that the usual pack of a test declares. */
export const bench = packOf(`checks:
  - id: band
    kind: range
    title: Signal within its band
    of: position
    in: [key-on]
    tiers: [{weight: look, between: [1 V, 4 V]}]
    basis: {kind: from-memory}
steps:
  - {id: height-learn, title: Height learn, minutes: 15}`);

/** A whole job that nothing is wrong with, a line each so that a test can bend one. */
export const soundJob = `worksheet: 1
job: S07-0412
title: Left rear sits low
opened: 2026-03-02T08:15
zone: Europe/Dublin
status: open
packs: [bench@1]
vehicle:
  name: Shuttle 7
  layout: four-corner-air
  fitted: [LF, RF, LR, RR]
  sensor-sense: {LF: rising, RF: falling, LR: rising, RR: falling}
  service-data:
    - {check: bench/band, of: position.LR, between: [1.00 V, 2.60 V], source: workshop manual}
  heights:
    LR: {at: [1.20 V, 2.40 V], mm: [360, 420], from: wheel-centre}
complaint: Lamp on most mornings.
distance: {in: 148200 km}
instruments:
  meter: {accuracy: 0.5 % + 0.02 V, shows: 0.01 V}
snapshots:
  - id: as-found
    at: 2026-03-02T08:40
    state: key-on
    conditions: {floor: level, air: 8 °C, rested: 8 h}
    readings:
      supply: 12.2 V
      battery: [12.31 V, 12.30 V]
      position: {LF: 2.48 V, RF: {low: 0.9 V, high: 2.6 V}, LR: {why: plug seized}, RR: {value: 2.61 V, by: meter}}
      tank: 96 psi
    lamp: on
    codes:
      - {code: C1A21, status: stored, means: signal-range}
      - {code: C1A40-54, status: 0x28}
log:
  - {at: 2026-03-02T10:30, did: replaced, what: sensor.LR, note: part numbers matched}
costs:
  currency: EUR
  labour-rate: 85 / h
  authorised: [{at: 2026-03-02T09:30, amount: 420, by: fleet desk, how: phone}]
  lines:
    - {kind: part, what: sensor.LR, amount: 138}
    - {kind: access, what: height-learn, amount: 74, from: 2026-03-02T11:00, lasts: P7D}
waivers:
  - {finding: bench/band, reason: part on order, by: workshop lead, until: 2026-03-09}
symptoms: {where: LR, sits: low, checked: yes}
recent-work: [sensor.RR, front]
x-bay: 4
`;

/** The problems of a job's text against the bench pack. */
export const jobProblems = (text: string): readonly Problem[] =>
  readJob(openJob(text), {
    prepared: preparePacks([bench]),
    shop: null,
    elsewhere: new Map([['ride-switch', 'cabin']]),
    sameDefinition: () => true,
  }).problems;

const line = ({ code, line: row, column, hint }: Problem): string => `${row}:${column} ${code} | ${hint}`;

/** The same as lines `LINE:COLUMN CODE | HINT`. */
export const jobFaults = (text: string): string[] => jobProblems(text).map(line);

/** What is wrong with the sound job once a text in it is replaced. */
export const faultsWith = (was: string, is: string): string[] => {
  if (!soundJob.includes(was)) throw new Error(`the sound job does not hold ${was}`);
  return jobFaults(soundJob.replace(was, is)).map((fault) => fault.replace(/^\S+ /u, ''));
};

export const packFaults = (text: string): string[] => readPack(text, 'p.yaml', '').problems.map(line);

export const shopFaults = (text: string): string[] => readShop(text, 'cornerwise.yaml').problems.map(line);
