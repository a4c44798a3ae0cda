import { describe, expect, it } from 'vitest';
import type { Job } from '../../../src/core/job.ts';
import { preparePacks } from '../../../src/core/prepare/prepared-packs.ts';
import type { Warning } from '../../../src/core/worksheet-parts.ts';
import { parseRate } from '../../../src/input/job/read-costs.ts';
import { openJob, readJob } from '../../../src/input/job/read-job.ts';
import { readCondition } from '../../../src/input/pack/read-condition.ts';
import { makeSink } from '../../../src/input/sink.ts';
import { readYaml } from '../../../src/input/yaml/read-yaml.ts';
import { fromPlain, get, offsetAt, textOf, toPlain } from '../../../src/input/yaml/tree.ts';
import { shopWith } from '../../support/judge.ts';
import { bench, soundJob } from '../problems-of.ts';

const shop = { ...shopWith(null), zone: 'America/Havana', currency: 'USD', labourRate: 90 };

const read = (text: string): { job: Job; warnings: readonly Warning[] } => {
  const around = {
    prepared: preparePacks([bench]),
    shop,
    elsewhere: new Map([
      ['ride-switch', 'cabin'],
      ['seat', 'cabin'],
    ]),
    sameDefinition: (_: string, version: string) => version === '1.0.0',
  };
  const { job, problems, warnings } = readJob(openJob(text), around);
  if (!job) throw new Error(JSON.stringify(problems));
  return { job, warnings };
};

const sound = read(soundJob).job;
const changed = (was: string, is: string): Job => read(soundJob.replace(was, is)).job;

describe('a snapshot', () => {
  const [snapshot] = sound.snapshots;

  it('has its time in the zone of the job, and its state', () => {
    expect(snapshot).toMatchObject({ id: 'as-found', state: 'key-on', lamp: 'on' });
    expect(snapshot?.stamp).toEqual({ at: Date.UTC(2026, 2, 2, 8, 40), resolution: 60_000 });
    const summer = changed('at: 2026-03-02T08:40', 'at: 2026-07-02T08:40').snapshots[0];
    expect(summer?.stamp.at).toBe(Date.UTC(2026, 6, 2, 7, 40));
  });

  it('has each reading in the form in which it was typed', () => {
    const { readings } = snapshot ?? { readings: new Map() };
    expect(readings.get('supply')).toEqual({
      kind: 'values',
      by: 'module',
      values: [{ value: 12.2, resolution: 0.1, text: '12.2 V' }],
    });
    expect(readings.get('battery')).toMatchObject({
      values: [{ text: '12.31 V' }, { text: '12.30 V', resolution: 0.01 }],
    });
    expect(readings.get('position.LF')).toMatchObject({ kind: 'values', by: 'module' });
    expect(readings.get('position.RF')).toMatchObject({
      kind: 'span',
      low: { value: 0.9 },
      high: { value: 2.6 },
    });
    expect(readings.get('position.LR')).toEqual({ kind: 'untaken', why: 'plug seized' });
    expect(readings.get('position.RR')).toMatchObject({ by: 'meter', values: [{ value: 2.61 }] });
    expect([...readings.keys()]).toHaveLength(7);
  });

  it('keeps the digits of a bare number', () => {
    const reading = changed('supply: 12.2 V', 'supply: 12.20').snapshots[0]?.readings.get('supply');
    expect(reading).toMatchObject({ values: [{ text: '12.20', resolution: 0.01 }] });
  });

  it('reads a channel that may stand once or at each corner', () => {
    const once = changed('supply: 12.2 V', 'reference: 5.01 V').snapshots[0];
    expect([...(once?.readings.keys() ?? [])]).toContain('reference');
    const each = changed('supply: 12.2 V', 'reference: {LF: 5.01 V}').snapshots[0];
    expect([...(each?.readings.keys() ?? [])]).toContain('reference.LF');
  });

  it('has its conditions, in the units that they are kept in', () => {
    expect(snapshot?.conditions).toMatchObject({
      words: { floor: 'level' },
      air: { value: 8 },
      rested: { value: 8 },
    });
    expect(changed('rested: 8 h', 'rested: 90 min').snapshots[0]?.conditions.rested?.value).toBeCloseTo(
      1.5,
      12,
    );
  });

  it('has its codes; a status byte is read bit by bit, and none read is not an empty list', () => {
    const nothingMore = { at: null, storedIn: null, setBy: null };
    expect(snapshot?.codes).toEqual([
      {
        code: 'C1A21',
        failureType: null,
        status: 'stored',
        mask: null,
        means: 'signal-range',
        ...nothingMore,
      },
      { code: 'C1A40-54', failureType: '54', status: 'stored', mask: 0x28, means: null, ...nothingMore },
    ]);
    expect(changed('code: C1A21,', 'code: 0x5A2154,').snapshots[0]?.codes?.[0]).toMatchObject({
      code: 'C1A21-54',
    });
    const noCodes = soundJob.replace(/ {4}codes:\n(?: {6}- .*\n)+/u, '');
    expect(read(noCodes).job.snapshots[0]?.codes).toBeNull();
    expect(
      read(soundJob.replace(/ {4}codes:\n(?: {6}- .*\n)+/u, '    codes: []\n')).job.snapshots[0]?.codes,
    ).toEqual([]);
  });

  it('may hold a channel of a pack that the job does not use: a warning, not an error', () => {
    const { warnings } = read(soundJob.replace('supply: 12.2 V', 'ride-switch: 1 V'));
    expect(warnings).toContainEqual({ kind: 'channel-not-judged', channel: 'ride-switch', pack: 'cabin' });
  });
});

describe('instruments', () => {
  const named = (job: Job, name: string) => job.instruments.find((one) => one.name === name);
  it('are the usual ones, with what the job says of them in place of what is assumed', () => {
    expect(named(sound, 'meter')).toMatchObject({ shows: { value: 0.01, unit: 'V' } });
    expect(named(sound, 'meter')?.accuracy).toContainEqual({
      quantity: 'voltage',
      gain: 0.005,
      fixed: 0.02,
      unit: 'V',
    });
    expect(named(sound, 'module')?.accuracy.length).toBeGreaterThan(0);
  });
  it('may be of several quantities, and of the job’s own', () => {
    const job = changed(
      '  meter: {accuracy: 0.5 % + 0.02 V, shows: 0.01 V}',
      '  clamp: {accuracy: [1 %, 0.5 A]}',
    );
    expect(named(job, 'clamp')?.accuracy).toEqual([
      { quantity: 'voltage', gain: 0.01, fixed: 0, unit: 'V' },
      { quantity: 'current', gain: 0, fixed: 0.5, unit: 'A' },
    ]);
    expect(named(job, 'clamp')?.shows).toBeNull();
  });
});

describe('the vehicle', () => {
  it('is as typed', () => {
    expect(sound.vehicle).toMatchObject({
      name: 'Shuttle 7',
      fitted: ['LF', 'RF', 'LR', 'RR'],
      sensorSense: { LF: 'rising', RF: 'falling', LR: 'rising', RR: 'falling' },
      sensorGainEqual: false,
    });
    expect(sound.vehicle.serviceData).toMatchObject([
      { check: 'bench/band', of: 'position.LR', limits: { low: 1, high: 2.6 }, source: 'workshop manual' },
    ]);
  });
  it('has the sensors of its layout where it names none', () => {
    const text = soundJob
      .replace('  fitted: [LF, RF, LR, RR]\n', '')
      .replace('four-corner-air', 'rear-air-assist');
    expect(read(text).job.vehicle.fitted).toEqual(['LR', 'RR']);
  });
  it('may have a limit to one side', () => {
    const job = changed('between: [1.00 V, 2.60 V]', 'at-most: 2600 mV');
    expect(job.vehicle.serviceData[0]?.limits).toEqual({ low: null, high: 2.6 });
  });
});

describe('the log', () => {
  it('keeps the order of the file and what was said', () => {
    const more =
      '\n  - {at: 2026-03-02T10:30, did: tested, what: odd-noise, found: none}\n  - {at: 2026-03-02T10:30, did: waiting, for: parts}\n  - {at: 2026-03-02T10:31, did: calibrated, what: ride-height, result: failed}';
    const { job, warnings } = read(
      soundJob.replace('note: part numbers matched}', `note: part numbers matched}${more}`),
    );
    expect(job.log.map(({ order, did, what }) => `${order} ${did} ${what}`)).toEqual([
      '0 replaced sensor.LR',
      '1 tested odd-noise',
      '2 waiting null',
      '3 calibrated ride-height',
    ]);
    expect(job.log[2]?.waitsFor).toBe('parts');
    expect(job.log[3]?.failed).toBe(true);
    expect(warnings).toContainEqual({ kind: 'name-not-used', name: 'odd-noise', pack: null });
  });
  it('may name a component of a pack that the job does not use', () => {
    const { warnings } = read(soundJob.replace('what: sensor.LR, note', 'what: seat, note'));
    expect(warnings).toContainEqual({ kind: 'name-not-used', name: 'seat', pack: 'cabin' });
  });
});

describe('costs', () => {
  it('are as typed, an access window with its end', () => {
    expect(sound.costs).toEqual({
      currency: 'EUR',
      labourRate: 85,
      authorised: [{ at: Date.UTC(2026, 2, 2, 9, 30), amount: 420 }],
      lines: [
        { kind: 'part', what: 'sensor.LR', amount: 138, minutes: null, from: null, ends: null },
        {
          kind: 'access',
          what: 'height-learn',
          amount: 74,
          minutes: null,
          from: Date.UTC(2026, 2, 2, 11),
          ends: Date.UTC(2026, 2, 9, 11),
        },
      ],
    });
  });
  it('take the shop’s currency and rate where the job names none', () => {
    const job = read(soundJob.replace('  currency: EUR\n  labour-rate: 85 / h\n', '')).job;
    expect(job.costs).toMatchObject({ currency: 'USD', labourRate: 90 });
  });
  it.each([
    ['85 / h', 85],
    ['85', 85],
    ['85.50/h', 85.5],
    ['85,50 / h', null],
    ['', null],
    ['-85', null],
    ['1e3', null],
  ])('the rate %j is %j', (text, rate) => {
    expect(parseRate(text)).toBe(rate);
  });
});

describe('waivers and zone', () => {
  it('a waiver lasts through its day in the zone of the job', () => {
    expect(sound.waivers[0]).toMatchObject({
      finding: 'bench/band',
      ends: Date.UTC(2026, 2, 10),
      isVoid: false,
    });
  });
  it('a waiver is void where the check has changed since, or nobody knows', () => {
    expect(changed('until: 2026-03-09', 'until: 2026-03-09, under: 1.0.0').waivers[0]?.isVoid).toBe(false);
    expect(changed('until: 2026-03-09', 'until: 2026-03-09, under: 0.9.0').waivers[0]?.isVoid).toBe(true);
  });
  it('a job without a zone has the shop’s', () => {
    const { job } = read(soundJob.replace('zone: Europe/Dublin\n', ''));
    expect(job.zone).toBe('America/Havana');
    expect(job.opened).toBe(Date.UTC(2026, 2, 2, 13, 15));
  });
  it('a time that comes twice is read as the first, with a warning', () => {
    const { job, warnings } = read(soundJob.replace('at: 2026-03-02T08:40', 'at: 2026-10-25T01:30'));
    expect(job.snapshots[0]?.stamp.at).toBe(Date.UTC(2026, 9, 25, 0, 30));
    expect(warnings).toContainEqual({ kind: 'ambiguous-time', text: '2026-10-25T01:30' });
  });
});

describe('conditions', () => {
  const conditionOf = (text: string) => {
    const { root } = readYaml(`when: ${text}`);
    const node = get(root ?? undefined, 'when');
    const sink = makeSink();
    return node && { condition: readCondition(node, sink), flaws: sink.flaws.map(({ code }) => code) };
  };
  it.each([
    ['{did: replaced, what: sensor}', { fact: 'log', pattern: { did: ['replaced'], what: ['sensor'] } }],
    ['{did: [replaced, repaired]}', { fact: 'log', pattern: { did: ['replaced', 'repaired'], what: null } }],
    ['{did: work}', { fact: 'log', pattern: { did: ['work'], what: null } }],
    ['{finding: a/b}', { fact: 'finding', check: 'a/b', verdict: ['out'], subject: null }],
    [
      '{finding: a/b, verdict: [within, too-close], subject: LF}',
      { fact: 'finding', check: 'a/b', verdict: ['within', 'too-close'], subject: 'LF' },
    ],
    ['{step: [a, b]}', { fact: 'step', steps: ['a', 'b'] }],
    ['{code-list: ever}', { fact: 'code-list', mark: null, state: null }],
    ['{layout: [rear-air-assist]}', { fact: 'layout', layouts: ['rear-air-assist'] }],
    [
      '{all: [{step: a}, {not: {step: b}}]}',
      { all: [{ fact: 'step', steps: ['a'] }, { not: { fact: 'step', steps: ['b'] } }] },
    ],
    ['{any: []}', { any: [] }],
  ])('%s', (text, condition) => {
    expect(conditionOf(text)).toEqual({ condition, flaws: [] });
  });
  it.each([
    ['{}', ['wrong-value']],
    ['{what: sensor}', ['wrong-value']],
    ['{did: replaced, step: a}', ['wrong-value']],
    ['{step: a, verdict: out}', ['unknown-key']],
    ['{did: repaced}', ['wrong-value']],
    ['{finding: a/b, verdict: outt}', ['wrong-value']],
  ])('%s is none', (text, flaws) => {
    expect(conditionOf(text)?.flaws).toEqual(flaws);
  });
});

describe('the tree', () => {
  const text = 'a: {b: [x, {c: 1}]}\n__proto__: {d: 2}\n';
  const root = readYaml(text).root ?? fromPlain(null, 0);

  it('finds the place of a path, of its key, and of the nearest that there is', () => {
    expect(offsetAt(root, ['a', 'b', 1, 'c'])).toBe(text.indexOf('1'));
    expect(offsetAt(root, ['a', 'b', 1, 'c'], true)).toBe(text.indexOf('c:'));
    expect(offsetAt(root, ['a', 'b', 7, 'c'])).toBe(text.indexOf('[x'));
    expect(offsetAt(root, ['a', 'no', 'way'])).toBe(text.indexOf('{b'));
    expect(offsetAt(root, [])).toBe(0);
  });

  it('gives plain values in which no key has powers', () => {
    const plain = toPlain(root) as Readonly<Record<string, unknown>>;
    expect(Object.keys(plain)).toEqual(['a', '__proto__']);
    expect(Object.getPrototypeOf(plain)).toBe(Object.prototype);
    expect(JSON.stringify(plain)).toBe('{"a":{"b":["x",{"c":1}]},"__proto__":{"d":2}}');
    expect(get(root, 'constructor')).toBeUndefined();
  });

  it('is made of plain values, too', () => {
    const made = fromPlain({ a: [1, 'x', null] }, 5);
    expect(toPlain(made)).toEqual({ a: [1, 'x', null] });
    expect(offsetAt(made, ['a', 1])).toBe(5);
    expect(textOf(get(fromPlain({ a: 2.5 }, 0), 'a'))).toBe('2.5');
  });
});
