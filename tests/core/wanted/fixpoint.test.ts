import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { assess } from '../../../src/core/assess.ts';
import type { Conditions, Job, Reading, Snapshot, State } from '../../../src/core/job.ts';
import { parseKey } from '../../../src/core/key.ts';
import type { Pack } from '../../../src/core/pack.ts';
import { preparePacks } from '../../../src/core/prepare/prepared-packs.ts';
import { type StillToTake, stillToTake } from '../../../src/core/wanted/still-to-take.ts';
import { openJob, readJob } from '../../../src/input/job/read-job.ts';
import { readPack } from '../../../src/input/pack/read-pack.ts';
import { projectRoot } from '../../support/run.ts';

const shipped = ['position-signals', 'supply-charging', 'air-supply', 'module-replacement', 'handover'];

const packs: readonly Pack[] = shipped.map((id) => {
  const text = readFileSync(join(projectRoot, 'rules', id, '1.0.0.yaml'), 'utf8');
  const { pack, problems } = readPack(text, id, '');
  if (!pack) throw new Error(`${id}: ${problems[0]?.message}`);
  return pack;
});
const prepared = preparePacks(packs);
const channels = prepared.channelById;

const jobOf = (text: string): Job => {
  const around = {
    prepared,
    shop: null,
    elsewhere: new Map<string, string>(),
    sameDefinition: () => true,
  };
  const { job, problems } = readJob(openJob(text), around);
  if (!job) throw new Error(problems.map(({ message }) => message).join('\n'));
  return job;
};

const exampleOf = (name: string): Job => {
  // Version 1 of the packs has no levelling mode.
  const text = readFileSync(join(projectRoot, 'examples', `${name}.yaml`), 'utf8').replaceAll(
    /^.*what: levelling-mode.*\n/gmu,
    '',
  );
  return jobOf(/^zone:/mu.test(text) ? text : `${text}zone: Europe/Dublin\n`);
};

/** What a sound vehicle shows, by channel, and by state where that matters. */
const sound = (base: string, state: State): number => {
  const battery = { rest: 12.7, 'key-on': 12.5, cranking: 10.9, running: 14.2, driving: 14.2 }[state];
  const values: Readonly<Record<string, number>> = {
    position: 2.5,
    'plug-signal': 2.5,
    'pin-signal': 2.5,
    reference: 5,
    battery,
    supply: battery,
    'pin-supply': battery,
    'battery-temperature': 20,
    tank: 130,
    spring: 60,
    height: 400,
    'network-resistance': 60,
  };
  return values[base] ?? 0.05;
};

const value = (number: number) => ({ value: number, resolution: 0.01, text: number.toFixed(2) });

const reading = (key: string, state: State): readonly [string, Reading] => {
  const { base } = parseKey(key);
  const by = channels.get(base)?.by ?? '';
  return [key, { kind: 'values', values: [value(sound(base, state))], by }];
};

const quantities: Readonly<Record<string, number>> = {
  air: 20,
  rested: 8,
  asleep: 2,
  barometer: 101,
  altitude: 50,
};

/** The conditions that are wanted, as they are wanted. */
const stated = ({ conditions }: StillToTake): Conditions => {
  const of = (name: string) =>
    conditions.some((one) => one.name === name) ? value(quantities[name] ?? 0) : null;
  return {
    words: Object.fromEntries(
      conditions.filter(({ wants }) => wants !== null).map(({ name, wants }) => [name, wants]),
    ),
    air: of('air'),
    rested: of('rested'),
    asleep: of('asleep'),
    barometer: of('barometer'),
    altitude: of('altitude'),
  };
};

const taken = (still: StillToTake, at: number): Snapshot => ({
  id: `${still.state}-${at}`,
  stamp: { at, resolution: 1000 },
  state: still.state,
  conditions: stated(still),
  readings: new Map(still.readings.map((key) => reading(key, still.state))),
  lamp: still.lamp ? 'off' : null,
  codes: still.codes ? [] : null,
});

const asked = (job: Job, now: number, inTest = false): StillToTake[] =>
  stillToTake(assess(job, prepared, now), prepared, inTest);

const merged = (before: Snapshot, more: Snapshot): Snapshot => ({
  ...before,
  conditions: {
    words: { ...before.conditions.words, ...more.conditions.words },
    air: before.conditions.air ?? more.conditions.air,
    rested: before.conditions.rested ?? more.conditions.rested,
    asleep: before.conditions.asleep ?? more.conditions.asleep,
    barometer: before.conditions.barometer ?? more.conditions.barometer,
    altitude: before.conditions.altitude ?? more.conditions.altitude,
  },
  readings: new Map([...before.readings, ...more.readings]),
  lamp: before.lamp ?? more.lamp,
  codes: before.codes ?? more.codes,
});

/** The job with all that is asked for read: one snapshot a state, as one session makes them. */
const answered = (job: Job, list: readonly StillToTake[], at: number): Job => {
  const snapshots = [...job.snapshots];
  for (const still of list) {
    const made = taken(still, at);
    const place = snapshots.findIndex(({ id }) => id === made.id);
    const before = snapshots[place];
    if (before) snapshots[place] = merged(before, made);
    else snapshots.push(made);
  }
  return { ...job, snapshots };
};

const lastOf = (job: Job): number =>
  Math.max(
    job.opened,
    ...job.snapshots.map(({ stamp }) => stamp.at),
    ...job.log.map(({ stamp }) => stamp.at),
  );

const fresh = (vehicle: string, rest = ''): Job =>
  jobOf(`worksheet: 1
job: J1
title: Fresh
opened: 2026-03-02T07:00
zone: UTC
status: open
vehicle: {name: Shuttle 4, ${vehicle}}
${rest}`);

const whole = 'layout: four-corner-air, battery: flooded, charging: fixed';
const found = `snapshots:
  - {id: a, at: 2026-03-02T08:00, state: key-on, conditions: {floor: level, load: empty, air: 20 °C}, readings: {supply: 12.40 V, battery: 12.45 V, position: {LF: 2.5 V, RF: 2.5 V, LR: 2.5 V, RR: 2.5 V}, tank: 130 psi}, lamp: on, codes: [{code: C1A21, status: stored}]}
  - {id: b, at: 2026-03-02T08:10, state: running, conditions: {air: 20 °C}, readings: {battery: 14.20 V}}
`;
const jobs: readonly (readonly [string, Job])[] = [
  ['a fresh job', fresh(whole)],
  ['a fresh job that states little', fresh('layout: four-corner-air')],
  ['air at the rear only', fresh('layout: rear-air-assist, battery: agm, charging: managed')],
  ['sensors without air', fresh('layout: four-corner-sensors, battery: gel, charging: fixed')],
  [
    'a sensor replaced',
    fresh(whole, `${found}log: [{at: 2026-03-02T09:00, did: replaced, what: sensor.LR}]`),
  ],
  [
    'a module ordered',
    fresh(whole, `${found}log: [{at: 2026-03-02T09:00, did: ordered, what: control-module}]`),
  ],
  [
    'a module replaced',
    fresh(whole, `${found}log: [{at: 2026-03-02T09:00, did: replaced, what: control-module}]`),
  ],
  ['codes cleared', fresh(whole, `${found}log: [{at: 2026-03-02T09:00, did: cleared, what: codes}]`)],
  ['a battery replaced', fresh(whole, `${found}log: [{at: 2026-03-02T09:00, did: replaced, what: battery}]`)],
  ['a road test', fresh(whole, `${found}log: [{at: 2026-03-02T09:00, did: drove, what: road-test}]`)],
  ...[
    'shuttle-02-said-to-lean',
    'shuttle-03-yearly-look',
    'shuttle-05-rear-too-high',
    'shuttle-07-left-rear-low',
    'shuttle-09-low-in-the-frost',
    'shuttle-12-four-sensor-codes',
    'shuttle-15-over-voltage-code',
    'shuttle-17-hops-at-standstill',
    'shuttle-19-right-front-leans',
    'shuttle-21-lamp-out-again',
    'shuttle-22-rear-sinks-when-loaded',
  ].map((name) => [name, exampleOf(name)] as const),
];

describe('once all that is asked for is read, nothing more is asked for', () => {
  it.each(jobs)('%s', (_, job) => {
    const at = lastOf(job) + 3_600_000;
    expect(asked(answered(job, asked(job, at), at), at + 60_000)).toEqual([]);
  });

  // Two readings that are compared are wanted of one moment, so the second is asked for once the first is there.
  it.each(jobs)('%s, with what only a test wants, at the second time of asking', (_, job) => {
    const at = lastOf(job) + 3_600_000;
    const first = asked(job, at, true);
    expect(first.length).toBeGreaterThan(0);
    const once = answered(job, first, at);
    const twice = answered(once, asked(once, at + 60_000, true), at);
    expect(asked(twice, at + 60_000, true)).toEqual([]);
  });
});

describe('what is asked for', () => {
  it('of a fresh job are readings in several states, with the lamp and the codes', () => {
    const list = asked(fresh(whole), Date.UTC(2026, 2, 2, 8));
    expect(list.map(({ state }) => state)).toEqual(expect.arrayContaining(['key-on', 'cranking', 'running']));
    expect(list.some(({ lamp }) => lamp)).toBe(true);
    expect(list.some(({ codes }) => codes)).toBe(true);
  });

  it('names a channel of the packs each, and none twice in a state', () => {
    for (const [name, job] of jobs) {
      for (const { readings } of asked(job, lastOf(job) + 3_600_000, true)) {
        expect(new Set(readings).size, name).toBe(readings.length);
        expect(
          readings.filter((key) => !channels.has(parseKey(key).base)),
          name,
        ).toEqual([]);
      }
    }
  });
});
