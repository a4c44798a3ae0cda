import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { assess } from '../../../src/core/assess.ts';
import type { Pack } from '../../../src/core/pack.ts';
import { preparePacks } from '../../../src/core/prepare/prepared-packs.ts';
import type { Worksheet } from '../../../src/core/worksheet.ts';
import { commandText } from '../../../src/report/words/command-words.ts';
import { nowTitle } from '../../../src/report/words/now-words.ts';
import { newestPacks, openLibrary } from '../../../src/shell/library.ts';
import { instant, jobOf, shopWith } from '../../support/judge.ts';
import { projectRoot } from '../../support/run.ts';

/** The loop of the shipped packs: from a fault to the proof that it is gone. */

let packs: readonly Pack[] = [];
beforeAll(async () => {
  packs = await newestPacks(openLibrary([join(projectRoot, 'rules')]));
});

const sheetOf = (body: string, equipment: Parameters<typeof shopWith>[0] = null): Worksheet =>
  assess(jobOf(body, packs, shopWith(equipment)), preparePacks(packs), instant('2026-03-02T20:00'));

const vehicle =
  'vehicle: {name: Shuttle 7, layout: four-corner-air, battery: agm, charging: fixed, sensor-sense: {LF: rising, RF: rising, LR: rising, RR: rising}}\n';

interface Read {
  readonly id: string;
  readonly at: string;
  readonly state?: string;
  readonly position?: string;
  readonly more?: string;
  readonly codes?: string;
  readonly lamp?: string;
}

const level = 'floor: level, load: empty, levelling: active, maintainer: off, air: 12 °C';

const read = ({
  id,
  at,
  state = 'key-on',
  position = '',
  more = '',
  codes = '[]',
  lamp = 'off',
}: Read): string => {
  const volts = state === 'running' ? '14.2 V' : '12.5 V';
  const signals = `position: {LF: 2.50 V, RF: 2.52 V, LR: ${position === '' ? '2.48 V' : position}, RR: 2.51 V}`;
  const readings = [`supply: ${volts}`, `battery: ${volts}`, signals, 'tank: 120 psi', more]
    .filter(Boolean)
    .join(', ');
  return `  - {id: ${id}, at: 2026-03-02T${at}, state: ${state}, conditions: {${level}}, readings: {${readings}}, lamp: ${lamp}, codes: ${codes}}`;
};

const log = (...entries: readonly (readonly [string, string])[]): string =>
  `log:\n${entries.map(([at, entry]) => `  - {at: 2026-03-02T${at}, ${entry}}`).join('\n')}\n`;

const low = [
  read({
    id: 'found',
    at: '08:30',
    position: '0.90 V',
    codes: '[{code: C3A23, status: stored}]',
    lamp: 'on',
  }),
  read({ id: 'found-running', at: '08:40', state: 'running', position: '0.91 V', codes: '[]', lamp: 'on' }),
];
const snapshots = (...all: readonly string[]): string => `snapshots:\n${all.join('\n')}\n`;

const verified = ['08:20', 'did: completed, what: verify-complaint'] as const;
const seen = ['09:00', 'did: inspected, what: linkage.LR, found: fault-seen, by: technician'] as const;
const fitted = ['10:00', 'did: replaced, what: linkage.LR'] as const;
const money =
  'costs: {currency: EUR, labour-rate: 60 / h, authorised: [{at: 2026-03-02T09:10, amount: 400, by: fleet desk}]}\n';

const stepState = (sheet: Worksheet, name: string): string =>
  sheet.steps.find(({ id }) => id.endsWith(`/${name}`))?.state ?? 'absent';
const order = ({ steps }: Worksheet): string[] =>
  steps
    .filter(({ state }) => state === 'ready' || state === 'waiting')
    .map(({ id }) => id.split('/')[1] ?? id);
const reasonsOf = ({ holdPoints }: Worksheet, point: string): string[] =>
  holdPoints.find(({ id }) => id === point)?.reasons.map(({ kind }) => kind) ?? [];
const releaseIsClear = ({ holdPoints }: Worksheet): boolean =>
  holdPoints.find(({ id }) => id === 'release')?.clear === true;

describe('a confirmed fault', () => {
  it('opens its repair, with the cautions before the work', () => {
    const sheet = sheetOf(vehicle + money + snapshots(...low) + log(verified, seen));
    expect(sheet.faults.map(({ component }) => component)).toEqual(['linkage.LR']);
    const repair = sheet.steps.find(({ id }) => id === 'handover/repair.linkage.LR');
    expect(repair).toMatchObject({ state: 'ready' });
    expect(repair?.cautions.join(' ')).toContain('body on air can drop');
    expect(reasonsOf(sheet, 'release')).toContain('fault-open');
  });

  it('is no more once the customer has declined it, and the vehicle still does not leave', () => {
    const sheet = sheetOf(
      vehicle +
        money +
        snapshots(...low) +
        log(verified, seen, ['09:30', 'did: declined, what: linkage.LR, by: fleet desk']),
    );
    expect(sheet.faults).toEqual([]);
    expect(releaseIsClear(sheet)).toBe(false);
  });

  it('that shows again after its repair says so', () => {
    const again = ['11:00', 'did: inspected, what: linkage.LR, found: fault-seen'] as const;
    const sheet = sheetOf(vehicle + money + snapshots(...low) + log(verified, seen, fitted, again));
    expect(sheet.faults).toMatchObject([{ component: 'linkage.LR', returned: { did: 'replaced' } }]);
    const repair = sheet.steps.find(({ id }) => id === 'handover/repair.linkage.LR');
    expect(repair?.because.map(({ kind }) => kind)).toContain('returned');
  });
});

describe('what was renewed', () => {
  it('is less likely than it was before the repair', () => {
    const share = (sheet: Worksheet): number =>
      sheet.ranking?.suspects.find(({ id }) => id === 'linkage.LR')?.probability ?? 0;
    const still = [...low, read({ id: 'after', at: '11:00', position: '0.90 V' })];
    const before = sheetOf(vehicle + money + snapshots(...still) + log(verified));
    const after = sheetOf(vehicle + money + snapshots(...still) + log(verified, fitted));
    expect(share(before)).toBeGreaterThan(0);
    expect(share(after)).toBeLessThan(share(before) / 2);
  });
});

describe('a repair', () => {
  const worked = vehicle + money + snapshots(...low) + log(verified, seen, fitted);

  it('brings the steps after it in the order of the work', () => {
    expect(order(sheetOf(worked)).filter((name) => name !== 'key-on' && name !== 'running')).toEqual([
      'fit-and-fasten',
      'clear-before-learn',
      'height-learn',
      'clear-and-reread',
      'retest.linkage.LR',
      'running-readings',
      'road-test',
      'final-read',
      'hand-over',
    ]);
  });

  it('is proved in every state of before, by the worked corner and its pair', () => {
    const since = (more: readonly string[]): Worksheet =>
      sheetOf(
        vehicle +
          money +
          snapshots(...low, ...more) +
          log(
            verified,
            seen,
            fitted,
            ['10:10', 'did: completed, what: fit-and-fasten'],
            ['10:15', 'did: cleared, what: codes'],
            ['10:30', 'did: calibrated, what: ride-height'],
            ['10:40', 'did: cleared, what: codes'],
          ),
      );
    const keyOn = read({ id: 'after', at: '11:00' });
    const running = read({ id: 'after-running', at: '11:10', state: 'running' });
    expect(since([keyOn]).now).toMatchObject({ kind: 'retest', id: 'retest.linkage.LR' });
    const [line] = [since([keyOn]).now.command];
    expect(line).toMatchObject({ kind: 'add', state: 'running' });
    expect(stepState(since([keyOn, running]), 'retest.linkage.LR')).toBe('done');
    const stillLow = read({ id: 'after-running', at: '11:10', state: 'running', position: '0.92 V' });
    expect(stepState(since([keyOn, stillLow]), 'retest.linkage.LR')).not.toBe('done');
  });

  it('of a signal that jumped is proved by several values, never by one', () => {
    const jumping = read({ id: 'found', at: '08:30', position: '{low: 0.9 V, high: 2.6 V}' });
    const work = log(
      verified,
      ['10:00', 'did: repaired, what: wiring.LR'],
      ['10:10', 'did: completed, what: fit-and-fasten'],
      ['10:15', 'did: cleared, what: codes'],
      ['10:30', 'did: calibrated, what: ride-height'],
      ['10:40', 'did: cleared, what: codes'],
    );
    const since = (...more: readonly string[]): Worksheet =>
      sheetOf(vehicle + money + snapshots(jumping, ...more) + work);
    const single = ['11:00', '11:10', '11:20'].map((at, place) => read({ id: `after-${String(place)}`, at }));
    const { now } = since(...single);
    expect(now.kind).toBe('retest');
    expect(now.command && commandText(now.command, 's7.yaml')).toContain('LR=…/…/…');
    const several = read({ id: 'after', at: '11:00', position: '[2.48 V, 2.49 V, 2.48 V]' });
    expect(stepState(since(several), 'retest.wiring.LR')).toBe('done');
  });

  it('says before against after, with what was fixed and what was not taken again', () => {
    const { beforeAfter } = sheetOf(
      vehicle + money + snapshots(...low, read({ id: 'after', at: '11:00' })) + log(verified, seen, fitted),
    );
    const standing = (state: string) =>
      beforeAfter?.readings.find((one) => one.channel === 'position.LR' && one.state === state)?.standing;
    expect(standing('key-on')).toBe('fixed');
    expect(standing('running')).toBe('not-retaken');
    expect(beforeAfter?.readings.find(({ channel }) => channel === 'position.LR')?.change?.value).toBeCloseTo(
      1.58,
      9,
    );
  });

  it('of air is held for leaks before levelling is on again, and rechecked after a night that holds nothing', () => {
    const sheet = sheetOf(
      vehicle + money + snapshots(...low) + log(verified, ['10:00', 'did: replaced, what: air-spring.LR']),
    );
    const steps = order(sheet);
    expect(steps.indexOf('leak-test')).toBeGreaterThan(steps.indexOf('fit-and-fasten'));
    expect(steps.indexOf('leak-test')).toBeLessThan(steps.indexOf('height-learn'));
    const recheck = sheet.steps.find(({ id }) => id === 'handover/overnight-recheck');
    expect(recheck?.due).toBe(instant('2026-03-03T10:00'));
    const held = sheet.holdPoints.find(({ id }) => id === 'release')?.reasons ?? [];
    expect(held).not.toContainEqual(expect.objectContaining({ step: 'handover/overnight-recheck' }));
  });

  it('that moved the heights by over 10 mm wants the alignment before the road test', () => {
    const heights = (lr: number): string => `height: {LF: 450 mm, RF: 450 mm, LR: ${lr} mm, RR: 450 mm}`;
    const sheet = sheetOf(
      vehicle +
        money +
        snapshots(
          read({ id: 'found', at: '08:30', position: '0.90 V', more: heights(420) }),
          read({ id: 'after', at: '11:00', more: heights(450) }),
        ) +
        log(verified, fitted),
    );
    const steps = order(sheet);
    expect(steps).toContain('alignment-and-aim');
    expect(steps.indexOf('alignment-and-aim')).toBeLessThan(steps.indexOf('road-test'));
  });
});

describe('codes', () => {
  it('that ask for programming open it, whoever fitted the module', () => {
    const sheet = sheetOf(
      vehicle +
        money +
        snapshots(
          read({
            id: 'found',
            at: '08:30',
            codes: '[{code: C3A3F-51, status: stored}, {code: C3A40-55, status: stored}]',
          }),
        ) +
        log(verified),
    );
    expect(order(sheet)).toEqual(expect.arrayContaining(['program', 'configure']));
  });

  it('that ask for programming alone have the supply read that was put on, before it begins', () => {
    const found = read({ id: 'found', at: '08:30', codes: '[{code: C3A3F-51, status: stored}]' });
    const on = log(verified, ['09:00', 'did: completed, what: battery-and-supply']);
    const held = sheetOf(vehicle + money + snapshots(found) + on).holdPoints.find(
      ({ id }) => id === 'program',
    );
    expect(held).toMatchObject({ clear: false });
    expect(held?.reasons).toContainEqual(
      expect.objectContaining({ kind: 'finding-wanted', check: 'supply-charging/programming-supply' }),
    );
    const supplied = read({ id: 'on', at: '09:10' })
      .replace('maintainer: off', 'maintainer: on')
      .replace('supply: 12.5 V', 'supply: [13.6 V, 13.7 V, 13.6 V]');
    const { holdPoints } = sheetOf(vehicle + money + snapshots(found, supplied) + on);
    const wanted = holdPoints.find(({ id }) => id === 'program')?.reasons.map(({ kind }) => kind) ?? [];
    expect(wanted).not.toContain('finding-wanted');
  });
});

describe('a stop', () => {
  it('of a battery that may be frozen never leads to what it forbids', () => {
    const cold = (id: string, at: string): string =>
      `  - {id: ${id}, at: 2026-03-02T${at}, state: rest, conditions: {air: -25 °C, rested: 12 h}, readings: {battery: 11.2 V, battery-temperature: -24 °C}}`;
    const found = read({
      id: 'found',
      at: '08:40',
      codes: '[{code: C3A30, status: stored, means: supply-range}]',
    });
    const sheet = sheetOf(`${vehicle}${money}${snapshots(cold('cold', '08:00'), found)}${log(verified)}`);
    expect(sheet.now).toMatchObject({ kind: 'stop', id: 'supply-charging/frozen-battery:battery' });
    expect(sheet.dangers.flatMap(({ forbids }) => forbids)).toEqual(['charge', 'load', 'crank']);
    const heeded = sheetOf(
      `${vehicle}${money}${snapshots(cold('cold', '08:00'), found)}${log(verified, ['09:00', 'did: noted, what: stop'])}`,
    );
    const forbidden = [
      'battery-load-test',
      'rested-again',
      'full-load-charging',
      'pump-up-timing',
      'raise-lower-command',
    ];
    expect(forbidden).not.toContain(heeded.now.id);
    expect(heeded.ranking?.nextTests.map(({ id }) => id).filter((id) => forbidden.includes(id))).toEqual([]);
    expect(heeded.now.command).not.toMatchObject({ state: 'cranking' });
  });

  it('does not keep a repair waiting for readings that it forbids', () => {
    const cold =
      '  - {id: cold, at: 2026-03-02T08:00, state: rest, conditions: {air: -25 °C, rested: 12 h}, readings: {battery: 11.2 V, battery-temperature: -24 °C}}';
    const seen = 'did: inspected, what: battery, found: fault-seen';
    const entries = [
      ['09:00', 'did: noted, what: stop'],
      ['09:10', seen],
      ['09:20', 'did: ordered, what: battery, despite: cold, by: desk'],
      ['09:30', 'did: received, what: battery'],
    ] as const;
    const paid =
      'costs: {currency: EUR, labour-rate: 60 / h, authorised: [{at: 2026-03-02T09:15, amount: 900, by: desk}]}\n';
    const { now } = sheetOf(
      `${vehicle}${paid}${snapshots(cold, read({ id: 'found', at: '08:40' }))}${log(verified, ...entries)}`,
    );
    expect(now).toMatchObject({ kind: 'repair', id: 'repair.battery' });
  });
});

describe('a mode that was put right', () => {
  it('is read again, though it is no channel', () => {
    const jacked = read({ id: 'found', at: '08:40' }).replace(
      'levelling: active',
      'levelling: active, mode: jacking',
    );
    const sheet = sheetOf(
      `${vehicle}${money}${snapshots(jacked)}${log(verified, ['09:10', 'did: adjusted, what: levelling-mode'], ['09:20', 'did: cleared, what: codes'])}`,
    );
    expect(order(sheet)).toContain('retest.levelling-mode');
  });
});

describe('the release', () => {
  const sound = [read({ id: 'key-on', at: '08:30' }), read({ id: 'running', at: '08:40', state: 'running' })];

  it('is held by an order against its hold point that does not say why, until it does', () => {
    const ordered = (more: string): Worksheet =>
      sheetOf(
        vehicle + snapshots(...sound) + log(verified, ['09:00', `did: ordered, what: control-module${more}`]),
      );
    const kept = (sheet: Worksheet) =>
      sheet.findings.filter(({ kind, verdict }) => kind === 'kept-hold-points' && verdict === 'out');
    expect(kept(ordered(''))).toMatchObject([{ weight: 'hold' }]);
    expect(nowTitle(ordered('').now)).toContain('Say why');
    expect(kept(ordered(', by: fleet desk, despite: they want it on the shelf'))).toEqual([]);
  });

  it('is held by a void waiver as by one that has ended', () => {
    const waived = (until: string, isSame: boolean): string[] => {
      const waiver = `waivers: [{finding: 'position-signals/left-right:rear', under: 1.0.0, reason: known, by: fleet desk, until: ${until}}]\n`;
      const job = jobOf(
        vehicle + money + snapshots(...low) + log(verified) + waiver,
        packs,
        null,
        () => isSame,
      );
      return reasonsOf(assess(job, preparePacks(packs), instant('2026-03-02T20:00')), 'release');
    };
    expect(waived('2026-03-09', true)).not.toContain('waiver-void');
    expect(waived('2026-03-09', false)).toContain('waiver-void');
    expect(waived('2026-03-01', true)).toContain('waiver-ended');
  });
});

describe('paid access', () => {
  it('that has ended is bought again, with its price', () => {
    const tool = [
      {
        name: 'dealer tool',
        does: ['read-codes', 'clear-codes', 'live-data', 'height-learn'],
        access: { amount: 74, lasts: { text: 'P10D', milliseconds: 864_000_000 } },
      },
    ];
    const sheet = sheetOf(
      vehicle +
        'costs: {currency: EUR, authorised: [{at: 2026-03-02T09:10, amount: 900, by: fleet desk}], lines: [{kind: access, what: height-learn, amount: 74, from: 2026-02-10T10:00, lasts: P10D}]}\n' +
        snapshots(...low) +
        log(
          verified,
          seen,
          fitted,
          ['10:10', 'did: completed, what: fit-and-fasten'],
          ['10:15', 'did: cleared, what: codes'],
        ),
      tool as never,
    );
    expect(sheet.now).toMatchObject({
      kind: 'order',
      title: { kind: 'buy-access', amount: 74, again: true },
    });
    expect(commandText(sheet.now.command ?? { kind: 'edit', at: '' }, 's7.yaml')).toBe(
      'cornerwise log s7.yaml ordered height-learn',
    );
  });
});
