import { describe, expect, it } from 'vitest';
import { judge, keyOn, stepOf } from '../../support/judge.ts';

const pack = `checks:
  - {id: rails, kind: range, title: Rails, of: position, in: [key-on, running], basis: {kind: from-memory}, tiers: [{weight: hold, between: [0.25 V, 4.75 V]}]}
  - {id: supply, kind: range, title: Supply, of: supply, in: [key-on], basis: {kind: from-memory}, tiers: [{weight: look, at-least: 11.8 V}]}
  - {id: idle, kind: range, title: Charging, of: battery, in: [running], basis: {kind: from-memory}, tiers: [{weight: look, at-least: 13 V}]}
  - {id: tank, kind: range, title: Tank, of: tank, in: [rest], wanted: in-test, basis: {kind: from-memory}, tiers: [{weight: look, at-least: 90 psi}]}
steps:
  - {id: fit, title: Fit, minutes: 20, when: {did: ordered, what: sensor}, answered-by: [{did: replaced, what: sensor}]}`;

const readingSteps = (job: string) =>
  judge(pack, job)
    .steps.filter(({ id }) => id.startsWith('readings/'))
    .map(({ id, state }) => `${id} ${state}`);
const all = '{position: {LF: 2.5 V, RF: 2.5 V, LR: 2.5 V, RR: 2.5 V}, supply: 12.4 V}';
const running = '  - {id: idle, at: 2026-03-02T09:00, state: running, readings: {battery: 14.20 V}}';
const log = (...entries: string[]): string => `log:\n${entries.map((entry) => `  - {${entry}}`).join('\n')}`;

describe('readings that the checks still want', () => {
  it('become a step a state, with the channels as its reason and their minutes added', () => {
    const sheet = judge(pack, 'snapshots: []');
    expect(readingSteps('snapshots: []')).toEqual(['readings/running ready', 'readings/key-on ready']);
    expect(stepOf(sheet, 'readings/key-on')).toMatchObject({
      because: [
        {
          kind: 'readings-missing',
          channels: ['position.LF', 'position.LR', 'position.RF', 'position.RR', 'supply'],
        },
      ],
      minutes: 11,
      waitsFor: [],
      needs: null,
    });
    expect(stepOf(sheet, 'readings/running').because).toEqual([
      { kind: 'readings-missing', channels: ['battery'] },
    ]);
  });

  it('are no more once they are taken', () => {
    expect(readingSteps(`${keyOn(all)}${running}`)).toEqual([]);
  });

  it('leave out those that only a test asks for', () => {
    expect(readingSteps(`${keyOn(all)}${running}`)).toEqual([]);
  });

  it('keep one that could not be taken, until somebody signs it off', () => {
    const seized = all.replace('LR: 2.5 V', 'LR: {why: plug seized}');
    const job = `${keyOn(seized)}${running}`;
    expect(readingSteps(job)).toEqual(['readings/key-on ready']);
    const signed = (at: string) => log(`at: 2026-03-02T${at}, did: completed, what: readings/key-on`);
    expect(readingSteps(`${job}\n${signed('07:00')}`)).toEqual(['readings/key-on ready']);
    expect(readingSteps(`${job}\n${signed('08:39')}`)).toEqual(['readings/key-on ready']);
    expect(readingSteps(`${job}\n${signed('08:40')}`)).toEqual(['readings/key-on done']);
    expect(readingSteps(`${job}\n${signed('11:00')}`)).toEqual(['readings/key-on done']);
  });

  it('leave out what is waived', () => {
    const waived = 'waivers: [{finding: bench/idle, reason: no fuel, by: workshop lead, until: 2026-03-09}]';
    expect(readingSteps(`${keyOn(all)}\n${waived}`)).toEqual([]);
  });
});

describe('readings before any work', () => {
  it('wait for none of it: they are what the work is decided by', () => {
    const ordered = log('at: 2026-03-02T08:30, did: ordered, what: sensor.RR');
    expect(readingSteps(`snapshots: []\n${ordered}`)).toContain('readings/key-on ready');
  });
});

describe('readings that work has made stale', () => {
  const replaced = 'at: 2026-03-02T10:00, did: replaced, what: sensor.LR';

  it('are to be taken again in their state, after the work that is named', () => {
    const sheet = judge(pack, `${keyOn(all)}${running}\n${log(replaced)}`);
    expect(stepOf(sheet, 'readings/key-on')).toMatchObject({
      state: 'ready',
      because: [{ kind: 'readings-stale', channels: ['position.LR'], after: ['replaced sensor.LR'] }],
      minutes: 2,
    });
  });

  it('are no more once they are taken again', () => {
    const again = '  - {id: again, at: 2026-03-02T10:30, state: key-on, readings: {position: {LR: 2.5 V}}}';
    expect(readingSteps(`${keyOn(all)}${running}\n${again}\n${log(replaced)}`)).toEqual([]);
  });

  it('name the first work after the newest reading in their own state', () => {
    // The supply was read again with the engine running after the first work; with the key on it was not.
    const idle =
      '  - {id: idle, at: 2026-03-02T10:30, state: running, readings: {supply: 14.1 V, battery: 14.20 V}}';
    const works = log(
      'at: 2026-03-02T10:00, did: programmed, what: control-module',
      'at: 2026-03-02T11:00, did: replaced, what: battery',
    );
    const { because } = stepOf(judge(pack, `${keyOn(all)}${idle}\n${works}`), 'readings/key-on');
    expect(because).toMatchObject([{ kind: 'readings-stale', after: ['programmed control-module'] }]);
  });

  it('are signed off by a word after the newest reading in their own state, whatever was read since', () => {
    const signed = log('at: 2026-03-02T08:50, did: completed, what: readings/key-on');
    const seized = all.replace('LR: 2.5 V', 'LR: {why: plug seized}');
    expect(readingSteps(`${keyOn(seized)}${running}\n${signed}`)).toEqual(['readings/key-on done']);
  });

  it('stand beside those that are missing', () => {
    const sheet = judge(pack, `${keyOn('{position: {LR: 2.5 V}}')}${running}\n${log(replaced)}`);
    expect(stepOf(sheet, 'readings/key-on').because).toEqual([
      { kind: 'readings-missing', channels: ['position.LF', 'position.RF', 'position.RR', 'supply'] },
      { kind: 'readings-stale', channels: ['position.LR'], after: ['replaced sensor.LR'] },
    ]);
  });

  it('wait for work ahead that would make them stale again at once', () => {
    const ordered = 'at: 2026-03-02T10:30, did: ordered, what: sensor.RR';
    const done = 'at: 2026-03-02T11:00, did: replaced, what: sensor.RR';
    const sheet = judge(
      pack,
      `${keyOn(all)}${running}\n${log('at: 2026-03-02T10:00, did: programmed, what: control-module', ordered)}`,
    );
    expect(stepOf(sheet, 'readings/key-on')).toMatchObject({ state: 'waiting', waitsFor: ['bench/fit'] });
    expect(readingSteps(`${keyOn(all)}${running}\n${log(replaced, ordered, done)}`)).toEqual([
      'readings/key-on ready',
    ]);
  });
});

describe('cautions of a channel', () => {
  it('stand with the step that asks for it', () => {
    const careful = `cautions: [{id: stands, text: Support the body.}]
components: [{id: sensor, per: corner, title: position sensor}]
channels:
  - {id: plug-signal, per: corner, title: signal at the plug, quantity: voltage, unit: V, by: meter, depends: [sensor], cautions: [stands]}
checks:
  - {id: plug, kind: range, title: Plug, of: plug-signal, in: [key-on], basis: {kind: from-memory}, tiers: [{weight: look, at-least: 1 V}]}`;
    expect(stepOf(judge(careful, 'snapshots: []'), 'readings/key-on').cautions).toEqual([
      'Support the body.',
    ]);
  });
});
