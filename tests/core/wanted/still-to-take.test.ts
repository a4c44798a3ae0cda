import { describe, expect, it } from 'vitest';
import { preparePacks } from '../../../src/core/prepare/prepared-packs.ts';
import { type StillToTake, stillToTake } from '../../../src/core/wanted/still-to-take.ts';
import { judge, keyOn, packOf } from '../../support/judge.ts';

const basis = 'basis: {kind: from-memory}';
const range = (id: string, of: string, states: string, more = ''): string =>
  `  - {id: ${id}, kind: range, title: ${id}, of: ${of}, in: [${states}], ${basis}, tiers: [{weight: look, at-least: 0.5 V}]${more}}`;
const pressure = (id: string, of: string, states: string, more = ''): string =>
  range(id, of, states, more).replace('0.5 V', '5 psi');

const still = (checks: readonly string[], job: string, more = '', inTest = false): StillToTake[] => {
  const pack = `checks:\n${checks.join('\n')}\n${more}`;
  return stillToTake(judge(pack, job), preparePacks([packOf(pack)]), inTest);
};
const readings = (list: readonly StillToTake[]): string[] =>
  list.map(({ state, readings: keys }) => `${state}: ${keys.join(' ')}`);
const log = (...entries: string[]): string =>
  `log:\n${entries.map((entry) => `  - {${entry}}`).join('\n')}\n`;

const none = 'snapshots: []';
const every = [
  pressure('tank', 'tank', 'key-on'),
  range('supply', 'supply', 'key-on'),
  range('battery', 'battery', 'key-on'),
  range('position', 'position', 'key-on'),
  range('idle', 'battery', 'running'),
  range('crank', 'battery', 'cranking'),
  range('rested', 'battery', 'rest'),
  range('driven', 'supply', 'driving'),
];

describe('what is still to take', () => {
  it('comes state by state, and within a state by instrument: none is fetched twice', () => {
    expect(readings(still(every, none))).toEqual([
      'rest: battery',
      'key-on: position.LF position.RF position.LR position.RR supply battery tank',
      'cranking: battery',
      'running: battery',
      'driving: supply',
    ]);
  });

  it('leaves out what is read, and ends with nothing', () => {
    expect(readings(still(every.slice(0, 3), keyOn('{supply: 12.4 V}')))).toEqual(['key-on: battery tank']);
    expect(still(every.slice(0, 3), keyOn('{supply: 12.4 V, battery: 12.5 V, tank: 96 psi}'))).toEqual([]);
  });

  it('asks where it is easiest to take, if several states serve', () => {
    expect(readings(still([range('one', 'battery', 'running, rest')], none))).toEqual(['running: battery']);
    expect(readings(still([range('one', 'battery', 'rest, key-on')], none))).toEqual(['key-on: battery']);
  });

  it('asks only for corners that are fitted', () => {
    const job = 'vehicle: {name: Shuttle 7, layout: four-corner-air, fitted: [LR, RR]}\nsnapshots: []';
    expect(readings(still([range('position', 'position', 'key-on')], job))).toEqual([
      'key-on: position.LR position.RR',
    ]);
  });

  it('does not ask again for what could not be taken; somebody said why', () => {
    const job = keyOn('{supply: {why: plug seized}}');
    expect(still([range('supply', 'supply', 'key-on')], job)).toEqual([]);
  });

  it('asks anew for what work has made stale', () => {
    const job = `${keyOn('{position: {LF: 2.5 V, RF: 2.5 V, LR: 2.5 V, RR: 2.5 V}}')}${log('at: 2026-03-02T10:00, did: replaced, what: sensor.LR')}`;
    expect(readings(still([range('position', 'position', 'key-on')], job))).toEqual(['key-on: position.LR']);
  });

  it('leaves out what is waived', () => {
    const job = `${none}\nwaivers: [{finding: bench/supply, reason: no key, by: workshop lead, until: 2026-03-09}]`;
    expect(still([range('supply', 'supply', 'key-on')], job)).toEqual([]);
  });

  it('asks for what only a test wants on demand, and not before', () => {
    const checks = [range('supply', 'supply', 'key-on', ', wanted: in-test')];
    expect(still(checks, none)).toEqual([]);
    expect(readings(still(checks, none, '', true))).toEqual(['key-on: supply']);
  });
});

describe('conditions that are asked for beside readings', () => {
  const conditions = (checks: readonly string[], job = none): string[] =>
    still(checks, job).flatMap(({ conditions: wanted }) =>
      wanted.map(({ name, wants }) => `${name} ${wants}`),
    );

  it('are none where no check looks at any', () => {
    expect(conditions([range('supply', 'supply', 'key-on')])).toEqual([]);
  });

  it('are those that the checks want, in the order in which one looks at them', () => {
    const needs = ', needs: {maintainer: "off", load: empty, floor: level}';
    expect(conditions([range('supply', 'supply', 'key-on', needs)])).toEqual([
      'floor level',
      'load empty',
      'maintainer off',
    ]);
  });

  it('are asked once, of whatever checks', () => {
    expect(
      conditions([
        range('supply', 'supply', 'key-on', ', needs: {floor: level}'),
        range('battery', 'battery', 'key-on', ', needs: {floor: level, load: empty}'),
      ]),
    ).toEqual(['floor level', 'load empty']);
  });

  it('are of the readings that are still to take, and no others', () => {
    const checks = [
      range('supply', 'supply', 'key-on', ', needs: {floor: level}'),
      range('battery', 'battery', 'key-on', ', needs: {load: empty}'),
    ];
    const job = keyOn('{supply: 12.4 V}').replace('readings:', 'conditions: {floor: level}\n    readings:');
    expect(conditions(checks, job)).toEqual(['load empty']);
  });

  it('are the air where a temperature would else be assumed', () => {
    const charging = `  - {id: charging, kind: charging-window, title: Charging, of: battery, in: [running], ${basis}, temperature: battery-temperature, at-temperature: 25 °C, per-degree-and-cell: 4 mV, cells: 6, hold-inside: [13 V, 15.8 V], tiers: [{weight: hold, between: [13.2 V, 15.2 V]}]}`;
    const vehicle = 'vehicle: {name: Shuttle 7, layout: four-corner-air, battery: flooded, charging: fixed}';
    const found = still([charging], `${vehicle}\n${none}`)[0]?.conditions ?? [];
    expect(found).toContainEqual({ name: 'air', wants: null });
  });
});

describe('the lamp and the code list', () => {
  const lamp = `  - {id: lamp, kind: lamp, title: Lamp, weight: hold, ${basis}}`;
  const codes = `  - {id: codes, kind: stored-codes, title: Codes, weights: {stored: hold}, ${basis}}`;
  const asked = (list: readonly StillToTake[]): string[] =>
    list.map((one) => `${one.state}${one.lamp ? ' lamp' : ''}${one.codes ? ' codes' : ''}`);

  it('are asked for with the key on, where checks want them', () => {
    expect(asked(still([lamp], none))).toEqual(['key-on lamp']);
    expect(asked(still([codes], none))).toEqual(['key-on codes']);
    expect(asked(still([lamp, codes], none))).toEqual(['key-on lamp codes']);
  });

  it('are no more once they are noted, in whatever state', () => {
    const noted = keyOn('{}', '    lamp: off\n    codes: []\n').replace('key-on', 'running');
    expect(still([lamp, codes], noted)).toEqual([]);
    expect(asked(still([lamp, codes], keyOn('{}', '    lamp: off\n')))).toEqual(['key-on codes']);
  });

  it('are asked for only where a check would be answered', () => {
    expect(asked(still([range('supply', 'supply', 'key-on')], none))).toEqual(['key-on']);
    expect(asked(still([range('idle', 'battery', 'running')], none))).toEqual(['running']);
  });

  it('are asked for anew after work', () => {
    const job = `${keyOn('{}', '    lamp: off\n    codes: [{code: C1A21, status: stored}]\n')}${log('at: 2026-03-02T10:00, did: replaced, what: sensor.LR')}`;
    expect(asked(still([lamp, codes], job))).toEqual(['key-on lamp codes']);
  });
});

describe('readings that a step wants', () => {
  const wants = `steps:
  - {id: before, title: As found, minutes: 10, answered-if: {taken: [key-on], when: before-work}}`;
  const checks = [
    range('supply', 'supply', 'key-on', ', wanted: in-test'),
    range('battery', 'battery', 'key-on'),
  ];

  it('are those that the checks of that state judge', () => {
    expect(readings(still(checks, none, wants))).toEqual(['key-on: battery']);
  });

  it('wait for the work that the step waits for', () => {
    const after = `steps:
  - {id: learn, title: Learn, minutes: 15, when: {did: replaced, what: sensor}, answered-by: [{did: calibrated, what: ride-height}]}
  - {id: again, title: After the work, minutes: 10, when: {did: work}, after: [learn], answered-if: {taken: running, when: after-work}}`;
    const idle = [range('idle', 'tank', 'running').replace('0.5 V', '5 psi')];
    const read = keyOn('{tank: 96 psi}').replace('key-on', 'running');
    const replaced = 'at: 2026-03-02T10:00, did: replaced, what: sensor.LR';
    const learned = 'at: 2026-03-02T11:00, did: calibrated, what: ride-height';
    expect(still(idle, read + log(replaced), after)).toMatchObject([
      { state: 'running', readings: ['tank'], waitsFor: ['bench/learn'] },
    ]);
    expect(still(idle, read + log(replaced, learned), after)).toMatchObject([
      { state: 'running', readings: ['tank'], waitsFor: [] },
    ]);
  });

  it('wait for work that would only make them stale again', () => {
    const learn = `steps:
  - {id: fit, title: Fit the other, minutes: 30, when: {did: replaced, what: sensor}, answered-by: [{did: replaced, what: control-module}]}`;
    const job = `${keyOn('{supply: 12.4 V}')}${log('at: 2026-03-02T10:00, did: replaced, what: battery', 'at: 2026-03-02T10:05, did: replaced, what: sensor.LR')}`;
    const list = still([range('supply', 'supply', 'key-on')], job, learn);
    expect(list).toMatchObject([{ state: 'key-on', readings: ['supply'], waitsFor: ['bench/fit'] }]);
  });
});
