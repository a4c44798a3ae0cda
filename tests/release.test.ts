import { describe, expect, it } from 'vitest';
import { runCli } from './support/run.ts';

/**
 * Whoever does just what the worksheet lists, step by step, comes to a clear release: no job may end with nothing
 * to do and the vehicle still held.
 */
interface Sheet {
  readonly steps: readonly { readonly id: string; readonly state: string }[];
  readonly holdPoints: readonly {
    readonly id: string;
    readonly clear: boolean;
    readonly reasons: string[];
  }[];
}

const vehicle = `worksheet: 1
job: J1
title: Step by step
opened: 2026-03-02T07:00
zone: UTC
status: open
packs: [position-signals@1, supply-charging@1, air-supply@1, module-replacement@1, handover@1]
vehicle:
  name: Shuttle 4
  layout: four-corner-air
  battery: flooded
  charging: fixed
  sensor-sense: {LF: rising, RF: rising, LR: rising, RR: rising}
  sensor-gain: equal
`;

const signals = 'position: {LF: 2.50 V, RF: 2.52 V, LR: 2.48 V, RR: 2.51 V}';
const shots = {
  'key-on': `state: key-on, conditions: {floor: level, load: empty, air: 20 °C, maintainer: off}, readings: {supply: 12.40 V, battery: 12.45 V, ${signals}, tank: 130 psi, reference: 5.01 V}`,
  regulated: `state: key-on, conditions: {floor: level, load: empty, maintainer: on}, readings: {supply: {low: 13.40 V, high: 13.50 V}, ${signals}, tank: 130 psi}`,
  running: `state: running, conditions: {floor: level, load: empty, air: 20 °C}, readings: {supply: 14.20 V, battery: 14.25 V, battery-temperature: 25 °C, ${signals}, tank: 140 psi}`,
  cranking: 'state: cranking, readings: {battery: 10.9 V}',
  rest: 'state: rest, conditions: {rested: 8 h}, readings: {battery: 12.70 V}',
  driving: 'state: driving, readings: {supply: 14.20 V, battery: 14.25 V}',
} as const;
const clean = ', lamp: off, codes: []';

/** A job that grows by an entry at a time, five minutes apart. */
class Visit {
  private minutes = 0;
  private readonly snapshots: string[] = [];
  private readonly log: string[] = [];

  private next(): string {
    this.minutes += 5;
    return new Date(Date.UTC(2026, 2, 2, 8, this.minutes)).toISOString().slice(0, 16);
  }

  read(shot: keyof typeof shots, more = ''): void {
    const at = this.next();
    this.snapshots.push(`  - {id: s${this.minutes}, at: ${at}, ${shots[shot]}${more}}`);
  }

  did(entry: string): void {
    this.log.push(`  - {at: ${this.next()}, did: ${entry}}`);
  }

  async sheet(): Promise<Sheet> {
    const list = (key: string, lines: readonly string[]) =>
      lines.length > 0 ? `${key}:\n${lines.join('\n')}\n` : '';
    const stdin = vehicle + list('snapshots', this.snapshots) + list('log', this.log);
    const { stdout } = await runCli(['check', '-', '--format', 'ndjson', '--as-of', this.next()], {
      cwd: '/',
      stdin,
    });
    return JSON.parse(stdout) as Sheet;
  }
}

/** What each step asks for; one that is not here is logged as completed. */
const doing: Readonly<Record<string, (visit: Visit) => void>> = {
  'readings/key-on': (visit) => visit.read('key-on', ', lamp: off'),
  'readings/running': (visit) => visit.read('running'),
  'readings/cranking': (visit) => visit.read('cranking'),
  'readings/rest': (visit) => visit.read('rest'),
  'readings/driving': (visit) => visit.read('driving'),
  'handover/save-codes': (visit) => visit.read('key-on', ', codes: []'),
  'handover/authorise-cost': (visit) => visit.did('authorised, what: cost'),
  'handover/height-learn': (visit) => visit.did('calibrated, what: ride-height'),
  'handover/running-readings': (visit) => visit.read('running'),
  'handover/clear-and-reread': (visit) => {
    visit.did('cleared, what: codes');
    visit.read('key-on', ', codes: []');
  },
  'handover/road-test': (visit) => visit.did('drove, what: road-test'),
  'handover/final-read': (visit) => visit.read('key-on', clean),
  'module-replacement/battery-and-supply': (visit) => visit.read('regulated'),
  'module-replacement/program': (visit) => visit.did('programmed, what: control-module'),
  'module-replacement/configure': (visit) => visit.did('configured, what: control-module'),
};

const work = async (visit: Visit): Promise<{ sheet: Sheet; done: string[] }> => {
  const done: string[] = [];
  for (let turn = 0; turn < 60; turn += 1) {
    const sheet = await visit.sheet();
    const ready = sheet.steps.find(({ id, state }) => state === 'ready' && id !== 'handover/hand-over');
    if (!ready) return { sheet, done };
    done.push(ready.id);
    const does = doing[ready.id];
    if (does) does(visit);
    else visit.did(`completed, what: ${ready.id.split('/')[1]}`);
  }
  throw new Error(`no end: ${done.slice(-12).join(', ')}`);
};

const asFound = (visit: Visit): void => {
  visit.read('key-on', clean);
  visit.read('cranking');
  visit.read('running');
};

const beginnings: readonly (readonly [string, (visit: Visit) => void])[] = [
  ['nothing typed yet', () => undefined],
  ['nothing wrong', asFound],
  ['the lamp not noted', (visit) => visit.read('key-on', ', codes: []')],
  ['codes cleared without work', (visit) => [asFound(visit), visit.did('cleared, what: codes')]],
  ['a sensor replaced', (visit) => [asFound(visit), visit.did('replaced, what: sensor.LR')]],
  ['work that failed', (visit) => [asFound(visit), visit.did('replaced, what: sensor.LR, result: failed')]],
  ['a module ordered', (visit) => [asFound(visit), visit.did('ordered, what: control-module')]],
  ['a module replaced', (visit) => [asFound(visit), visit.did('replaced, what: control-module')]],
  [
    'programming that failed',
    (visit) => [asFound(visit), visit.did('programmed, what: control-module, result: failed')],
  ],
  ['a battery replaced', (visit) => [asFound(visit), visit.did('replaced, what: battery')]],
  ['an air spring replaced', (visit) => [asFound(visit), visit.did('replaced, what: air-spring.RF')]],
];

describe('doing what is listed', () => {
  it.each(beginnings)('from %s', async (_, begin) => {
    const visit = new Visit();
    begin(visit);
    const { sheet, done } = await work(visit);
    const release = sheet.holdPoints.find(({ id }) => id === 'release');
    expect(release, done.join(', ')).toMatchObject({ clear: true, reasons: [] });
    const left = sheet.steps.filter(({ state }) => state === 'ready' || state === 'waiting');
    expect(left.map(({ id }) => id)).toEqual(['handover/hand-over']);
  });
});
