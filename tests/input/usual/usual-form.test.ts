import { describe, expect, it } from 'vitest';
import type { Job } from '../../../src/core/job.ts';
import { preparePacks } from '../../../src/core/prepare/prepared-packs.ts';
import type { Assumption } from '../../../src/core/worksheet-parts.ts';
import type { JobSource } from '../../../src/input/job/job-context.ts';
import { openJob, readJob } from '../../../src/input/job/read-job.ts';
import { emptyShop } from '../../../src/input/job/shop.ts';
import { packOf } from '../../support/judge.ts';

const pack = packOf(`checks:
  - {id: band, kind: range, title: Band, of: position, in: [key-on], basis: {kind: from-memory}, tiers: [{weight: look, between: [1 V, 4 V]}]}`);

/** A file s7.yaml on a machine in Ireland, saved on 2 March at a quarter to nine and some seconds. */
const source: JobSource = {
  name: 's7',
  zone: () => 'Europe/Dublin',
  savedAt: () => Date.UTC(2026, 2, 2, 8, 45, 12),
};

const read = (text: string, zone: string | null = null) =>
  readJob(openJob(text), {
    prepared: preparePacks([pack], []),
    shop: zone === null ? null : { ...emptyShop, zone },
    elsewhere: new Map(),
    sameDefinition: () => true,
    source,
  });

const jobIn = (text: string, zone: string | null = null): Job => {
  const { job, problems } = read(text, zone);
  if (!job) throw new Error(JSON.stringify(problems, null, 2));
  return job;
};

const assumed = (text: string, zone: string | null = null): readonly Assumption[] => {
  const { warnings } = read(text, zone);
  const [first, ...more] = warnings.filter((one) => one.kind === 'assumed');
  expect(more).toEqual([]);
  return first?.what ?? [];
};

const faults = (text: string): string[] =>
  read(text).problems.map(({ line, column, code, message }) => `${line}:${column} ${code} ${message}`);

const at = (clock: string): number => Date.parse(`2026-03-02T${clock}:00Z`);

describe('a vehicle and readings', () => {
  const text = 'vehicle: Shuttle 7\nreadings: {supply: 12.2, LF: 2.48, RF: 2.55, LR: 1.12, RR: 2.61}\n';

  it('are a job', () => {
    const job = jobIn(text);
    expect(job).toMatchObject({
      id: 's7',
      title: 'Shuttle 7',
      status: 'open',
      opened: at('08:45'),
      zone: 'Europe/Dublin',
      vehicle: { name: 'Shuttle 7', layout: 'four-corner-air', fitted: ['LF', 'RF', 'LR', 'RR'] },
    });
    const [snapshot, ...more] = job.snapshots;
    expect(more).toEqual([]);
    expect(snapshot).toMatchObject({ id: 'key-on', state: 'key-on', lamp: null, codes: null });
    expect(snapshot?.stamp).toEqual({ at: at('08:45'), resolution: 60_000 });
    expect([...(snapshot?.readings.keys() ?? [])]).toEqual([
      'supply',
      'position.LF',
      'position.RF',
      'position.LR',
      'position.RR',
    ]);
  });

  it('come with one warning that says what was assumed', () => {
    expect(assumed(text)).toEqual([
      { of: 'opened', at: at('08:45'), from: 'saved' },
      { of: 'taken', snapshots: ['key-on'] },
      { of: 'state', state: 'key-on' },
      { of: 'zone', zone: 'Europe/Dublin' },
      { of: 'layout', layout: 'four-corner-air' },
    ]);
  });

  it('are titled by the complaint where there is one', () => {
    expect(jobIn(`${text}complaint: Sits low. Since Monday.\n`).title).toBe('Sits low');
  });

  it('take the zone of the shop before that of the machine', () => {
    expect(jobIn(text, 'UTC').zone).toBe('UTC');
    expect(assumed(text, 'UTC').some(({ of }) => of === 'zone')).toBe(false);
  });

  it('say what else they know at the top of the file, too', () => {
    const job = jobIn(
      `${text}opened: 2026-03-02T08:15\nat: 8:40\nstate: idle\nlamp: on\ncodes: [C3A21]\nconditions: {floor: level}\nlayout-note: x\n`.replace(
        'layout-note: x\n',
        '',
      ),
    );
    expect(job.snapshots[0]).toMatchObject({
      id: 'running',
      state: 'running',
      lamp: 'on',
      stamp: { at: at('08:40') },
      conditions: { words: { floor: 'level' } },
      codes: [{ code: 'C3A21', status: 'stored' }],
    });
    expect(job.opened).toBe(at('08:15'));
  });

  it('stand before the snapshots of the list', () => {
    const job = jobIn(`${text}snapshots:\n  - {state: key-on, at: 09:10, readings: {supply: 12}}\n`);
    expect(job.snapshots.map(({ id, stamp }) => [id, stamp.at])).toEqual([
      ['key-on', at('09:10')],
      ['key-on-2', at('09:10')],
    ]);
  });
});

describe('times', () => {
  const job = (body: string): Job => jobIn(`vehicle: Shuttle 7\n${body}`);

  it('without a day are on the day opened', () => {
    const { snapshots, log } = job(
      'opened: 2026-02-27T16:00\nsnapshots: [{at: 17:05, state: key-on}]\nlog: [{at: "17:10:30", did: noted, note: x}]\n',
    );
    expect(snapshots[0]?.stamp.at).toBe(Date.UTC(2026, 1, 27, 17, 5));
    expect(log[0]?.stamp).toEqual({ at: Date.UTC(2026, 1, 27, 17, 10, 30), resolution: 1000 });
  });

  it('without a day are on the day of the first whole time, which opens the job', () => {
    const text =
      'log: [{at: 10:30, did: noted, note: x}]\nsnapshots: [{at: 2026-02-27T08:40, state: key-on}, {at: 8:20, state: running}]\n';
    expect(job(text).opened).toBe(Date.UTC(2026, 1, 27, 8, 20));
    expect(assumed(`vehicle: Shuttle 7\n${text}`)[0]).toEqual({
      of: 'opened',
      at: Date.UTC(2026, 1, 27, 8, 20),
      from: 'first-time',
    });
  });

  it('without any day in the file are on the day on which it was saved', () => {
    const { opened, log } = job('log: [{at: 7:30, did: noted, note: x}]\n');
    expect([opened, log[0]?.stamp.at]).toEqual([at('07:30'), at('07:30')]);
  });

  it('of an opening without a day are on the day of the first whole time', () => {
    const { opened } = job('opened: 7:10\nsnapshots: [{at: 2026-02-27T08:40, state: key-on}]\n');
    expect(opened).toBe(Date.UTC(2026, 1, 27, 7, 10));
  });

  it('that are not on the clock are told as they stand', () => {
    expect(
      faults('vehicle: Shuttle 7\nopened: 2026-03-02\nlog: [{at: 25:10, did: noted, note: x}]\n'),
    ).toEqual(['3:12 bad-time "2026-03-02T25:10" is not on the calendar or the clock']);
  });
});

describe('one minute', () => {
  const clocks = (list: 'snapshots' | 'log', texts: readonly string[]): number[] => {
    const entry = list === 'log' ? 'did: noted, note: x' : 'state: key-on';
    const job = jobIn(
      `vehicle: Shuttle 7\nopened: 2026-03-02\n${list}:\n${texts.map((text) => `  - {at: "${text}", ${entry}}\n`).join('')}`,
    );
    return job[list].map(({ stamp }) => stamp.at - at('10:30'));
  };

  it.each(['snapshots', 'log'] as const)('keeps the order of the file in %s', (list) => {
    expect(clocks(list, ['10:30:25', '10:30', '10:30:40', '10:30'])).toEqual([
      25_000, 25_000, 40_000, 40_000,
    ]);
    expect(clocks(list, ['10:30', '10:30:25', '10:29'])).toEqual([0, 25_000, -60_000]);
  });

  it('ends no later than it did', () => {
    const { log } = jobIn(
      'vehicle: Shuttle 7\nopened: 2026-03-02\nlog:\n  - {at: "10:30:25", did: noted, note: x}\n  - {at: 10:30, did: noted, note: y}\n',
    );
    expect(log[1]?.stamp).toEqual({ at: at('10:30') + 25_000, resolution: 35_000 });
  });
});

describe('what is written as it is typed', () => {
  const snapshot = (text: string): unknown =>
    jobIn(`vehicle: {name: Shuttle 7, layout: four-corner-air}\nopened: 2026-03-02T08:15\n${text}`).snapshots;

  it.each([
    ['readings: {FL: 2.48}', 'readings: {position: {LF: 2.48}}'],
    ['readings: {left front: 2.48}', 'readings: {position: {LF: 2.48}}'],
    ['readings: {position: {fl: 2.48, rf: 2.55}}', 'readings: {position: {LF: 2.48, RF: 2.55}}'],
    ['readings: {LF: 2.48, position: {RF: 2.55}}', 'readings: {position: {RF: 2.55, LF: 2.48}}'],
    ['readings: {spring.lr: 60, spring: {RR: 61}}', 'readings: {spring: {RR: 61, LR: 60}}'],
    ['readings: {supply: 12.2..12.6 V}', 'readings: {supply: {low: 12.2 V, high: 12.6 V}}'],
    ['readings: {supply: 900..2600 mV}', 'readings: {supply: {low: 900 mV, high: 2600 mV}}'],
    ['readings: {battery: 12.31/12.30 V}', 'readings: {battery: [12.31 V, 12.30 V]}'],
    ['readings: {supply: 12.3@meter}', 'readings: {supply: {value: "12.3", by: meter}}'],
    ['readings: {supply: 12.3..12.4 @ meter}', 'readings: {supply: {low: "12.3", high: "12.4", by: meter}}'],
    [
      'readings: {supply: 12, floor: level, air: 8 C}',
      'readings: {supply: 12}\nconditions: {floor: level, air: 8 C}',
    ],
    [
      'readings: {air: 8 C}\nconditions: {floor: level}',
      'readings: {}\nconditions: {floor: level, air: 8 C}',
    ],
    ['readings: {supply: 12, lamp: on, code: none}', 'readings: {supply: 12}\nlamp: on\ncodes: []'],
    ['codes: C3A21', 'codes: [{code: C3A21, status: stored}]'],
    [
      'codes: [C3A21:present:signal-range:LR, C3A40-54:0x28]',
      'codes: [{code: C3A21, status: present, means: signal-range, at: LR}, {code: C3A40-54, status: 0x28}]',
    ],
    ['codes: none', 'codes: []'],
    ['state: ign-on\nlamp: on', 'state: key-on\nlamp: on'],
    ['state: Key On\nlamp: on', 'state: key-on\nlamp: on'],
    ['state: idle\nlamp: on', 'state: running\nlamp: on'],
  ])('%s is %s', (short, long) => {
    expect(snapshot(short)).toEqual(snapshot(long));
  });

  it('is the same below vehicle, symptoms, recent work and the log', () => {
    const short =
      'vehicle: {name: Shuttle 7, fitted: [FL, FR], sensor-sense: {FL: rising}}\nsymptoms: {where: RL}\nrecent-work: [sensor.FR, fl]\nlog: [{at: 2026-03-02T10:30, did: replaced, what: sensor.RL}]\n';
    const long =
      'vehicle: {name: Shuttle 7, fitted: [LF, RF], sensor-sense: {LF: rising}}\nsymptoms: {where: LR}\nrecent-work: [sensor.RF, LF]\nlog: [{at: 2026-03-02T10:30, did: replaced, what: sensor.LR}]\n';
    expect(jobIn(short)).toEqual(jobIn(long));
  });
});

describe('mistakes', () => {
  it('are told where they stand', () => {
    const text = `vehicle: Shuttle 7
opened: 2026-03-02T08:15
readings:
  LF: 2,48 V
  tnak: 96 psi
codes: [C3A2]
state: parked
`;
    expect(faults(text)).toEqual([
      '4:7 decimal-comma "2,48 V" has a decimal comma',
      '5:3 unknown-channel the job\'s packs have no channel "tnak"',
      '6:9 bad-code "C3A2" is not a trouble code',
      '7:8 wrong-value "state" cannot be "parked"',
    ]);
  });

  it.each([
    ['readings: {LF: 2.4, FL: 2.5}', '"LF" is set a second time'],
    ['readings: {LF: 2.4, position: {lf: 2.5}}', '"LF" is set a second time'],
    ['readings: {floor: level}\nconditions: {floor: level}', '"floor" is set a second time'],
    ['readings: {lamp: on}\nlamp: on', '"lamp" is set a second time'],
  ])('%s: %s', (body, message) => {
    expect(read(`vehicle: Shuttle 7\n${body}\n`).problems.map((one) => one.message)).toEqual([message]);
  });
});

describe('places of snapshots', () => {
  it('are those of the file', () => {
    const { form } = read(
      'vehicle: Shuttle 7\nreadings: {supply: 12}\nsnapshots:\n  - {state: key-on}\n  - {id: idle-1, state: idle}\n  - {state: idle}\n',
    );
    expect([...(form?.ways ?? [])]).toEqual([
      ['key-on', []],
      ['key-on-2', ['snapshots', 0]],
      ['idle-1', ['snapshots', 1]],
      ['running', ['snapshots', 2]],
    ]);
  });
});
