import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { kindsOfNow } from '../../../src/core/now/kinds/index.ts';
import { nowKinds } from '../../../src/core/now/now.ts';
import { mayLeave } from '../../../src/core/outlook/may-leave.ts';
import { commandText } from '../../../src/report/words/command-words.ts';
import { nowTitle } from '../../../src/report/words/now-words.ts';
import { evening, holdPointOf, judge, keyOn } from '../../support/judge.ts';
import { projectRoot } from '../../support/run.ts';
import { signals } from '../suspects/bench-pack.ts';
import { pack } from './small-pack.ts';

const rated = 'costs: {labour-rate: 60 / h}\n';
const codes = '    codes: []\n';
const sound = keyOn(`{${signals({})}, battery: 12.5 V}`, codes);
const lowLeftRear = keyOn(`{${signals({ LR: '0.50 V' })}, battery: 12.5 V}`, codes);

const log = (...entries: string[]): string =>
  `log: [${entries.map((entry, index) => `{at: 2026-03-02T09:${String(10 + index)}, ${entry}}`).join(', ')}]\n`;

const nowOf = (job: string) => judge(pack, job + rated, evening).now;
const kindAndId = (job: string) => {
  const { kind, id } = nowOf(job);
  return `${kind} ${id}`;
};
const lineOf = (job: string): string => {
  const { command } = nowOf(job);
  return command === null ? '' : commandText(command, 's7.yaml');
};

const seen = 'did: inspected, what: sensor.LR, found: fault-seen';
const looked = ['sensor', 'wire'].map((part) => `did: inspected, what: ${part}.LR, found: nothing-seen`);
const tried = 'did: tested, what: try-arm.LR, found: stuck';

describe('the kinds', () => {
  it('are one file each, in the order that is documented', () => {
    const files = readdirSync(join(projectRoot, 'src/core/now/kinds')).filter((name) => name !== 'index.ts');
    expect([...new Set(kindsOfNow.map(({ kind }) => kind))]).toEqual([...nowKinds]);
    expect(files.sort()).toEqual(nowKinds.map((kind) => `${kind}.ts`).sort());
  });
});

describe('now', () => {
  it('is to hand over where nothing is open, and to close the job after that', () => {
    expect(kindAndId(sound)).toBe('hand-over bench/hand-over');
    expect(lineOf(sound)).toBe('cornerwise log s7.yaml released vehicle --by "…"');
    expect(lineOf(sound + log('did: released, what: vehicle'))).toBe(
      'cornerwise log s7.yaml closed --result repaired',
    );
    expect(nowOf(`status: closed\n${sound}`)).toMatchObject({ kind: 'none', command: null });
  });

  it('is to stop at a danger, and after that whatever its acts do not forbid', () => {
    const overcharged = keyOn(`{${signals({})}, battery: 12.5 V, supply: 16.9 V}`, codes);
    expect(nowOf(overcharged)).toMatchObject({ kind: 'stop', cautions: ['mind your head'] });
    expect(nowTitle(nowOf(overcharged))).toBe('Stop: Supply. Do not charge or jump the battery or crank it');
    expect(lineOf(overcharged)).toBe('cornerwise log s7.yaml noted stop');
    const heeded = judge(pack, overcharged + rated + log('did: noted, note: stop'), evening);
    expect(heeded.now.kind).toBe('test');
    expect(heeded.dangers).toMatchObject([{ id: 'bench/supply:supply', acknowledged: true }]);
    const pinned = judge(
      pack,
      overcharged + rated + log('did: noted, what: stop', 'did: tested, what: pins, found: good'),
      evening,
    );
    expect(pinned.ranking?.nextTests.map(({ id }) => id)).not.toContain('other-module');
  });

  it('stops where a job says so, and lets nobody drive a body on its stops', () => {
    const onStops = sound.replace('state: key-on\n', 'state: key-on\n    conditions: {on-stops: yes}\n');
    expect(kindAndId(onStops)).toBe('stop on-stops');
    const worked =
      onStops +
      log('did: noted, what: stop', 'did: authorised, what: cost', 'did: disconnected, what: battery');
    expect(judge(pack, worked + rated, evening).now.id).not.toBe('bench/road-test');
    const shared = `vehicle: {name: Shuttle 7, layout: four-corner-air, air: {shared-with-brakes: yes}}\n${lowLeftRear}`;
    expect(kindAndId(shared)).toBe('stop shared-with-brakes');
    expect(nowOf(shared + log('did: noted, what: stop'))).toMatchObject({
      kind: 'decide',
      title: { kind: 'pass-on' },
    });
  });

  it('is to correct readings that cannot be right together, once', () => {
    const low = keyOn(`{${signals({})}, battery: 9 V, supply: 12.4 V}`, codes);
    expect(kindAndId(low)).toBe('correct supply-twice');
    const twice = `${low}  - {id: again, at: 2026-03-02T08:50, state: key-on, readings: {battery: 9 V, supply: 12.4 V}}\n`;
    expect(nowOf(twice).kind).not.toBe('correct');
  });

  it('is to read what decides little once no test pays any more, and before anything is ordered', () => {
    const tankWanted = pack.replace('id: tank, kind: range, wanted: in-test', 'id: tank, kind: range');
    const now = (...entries: string[]) =>
      judge(
        tankWanted.replace('of: tank, in: [key-on, running]', 'of: tank, in: [running]'),
        lowLeftRear + log(...entries) + rated,
        evening,
      ).now;
    const asked = 'did: skipped, what: battery-by-meter, reason: no meter';
    expect(now(asked)).toMatchObject({ kind: 'test', id: 'try-arm.LR' });
    expect(now(asked, tried, ...looked)).toMatchObject({ kind: 'read', id: 'readings/running' });
  });

  it('is to read what checks want, then what is asked before any test', () => {
    expect(nowOf(keyOn('{battery: 12.5 V}', codes))).toMatchObject({ kind: 'read', id: 'readings/key-on' });
    const asked = keyOn(`{${signals({ LR: '0.50 V' })}}`, codes);
    expect(kindAndId(asked)).toBe('read battery-by-meter');
    expect(lineOf(asked)).toBe('cornerwise add s7.yaml key-on battery=…');
    expect(nowOf(asked + log('did: skipped, what: battery-by-meter, reason: no meter')).kind).toBe('test');
  });

  it('is the test that pays, with every outcome spelt out, and not one that is skipped', () => {
    const after = lowLeftRear + log(...looked);
    expect(nowOf(after)).toMatchObject({
      kind: 'test',
      id: 'try-arm.LR',
      minutes: 12,
      cautions: ['mind your head'],
    });
    expect(lineOf(after)).toBe('cornerwise log s7.yaml tested try-arm.LR --found smooth|stuck');
    const skipped = lowLeftRear + log(...looked, 'did: skipped, what: try-arm.LR, reason: no stands');
    expect(nowOf(skipped).id).not.toBe('try-arm.LR');
  });

  it('is to decide where neither test nor advice says what to do', () => {
    const unknown = keyOn(
      `{${signals({})}, battery: 12.5 V}`,
      '    codes: [{code: C3001, status: stored}]\n',
    );
    const { kind, instead } = nowOf(unknown);
    expect(kind).toBe('decide');
    expect(instead.map((command) => commandText(command, 's7.yaml'))).toContain(
      'cornerwise waive s7.yaml bench/codes:C3001 --reason "…" --by "…" --until …',
    );
    const passed = unknown + log('did: passed-on, what: vehicle, to: the dealer');
    expect(lineOf(passed)).toBe('cornerwise log s7.yaml closed --result passed-on --reason "…" --by "…"');
    const accepted = `${unknown}waivers: [{finding: "bench/codes:C3001", reason: known, by: lead, until: 2026-04-01}]\n`;
    expect(nowOf(accepted).kind).toBe('hand-over');
  });

  it('goes from a fault that an eye saw over money, order and wait to the repair', () => {
    const first = nowOf(lowLeftRear + log(seen));
    expect(first).toMatchObject({ kind: 'authorise', title: { amount: 200, about: true } });
    const paid = [seen, 'did: authorised, what: cost'];
    expect(kindAndId(lowLeftRear + log(...paid))).toBe('order sensor.LR');
    const ordered = [...paid, 'did: ordered, what: sensor.LR'];
    expect(nowOf(lowLeftRear + log(...ordered))).toMatchObject({
      kind: 'wait',
      id: 'sensor.LR',
      for: 'parts',
    });
    const there = [...ordered, 'did: received, what: sensor.LR'];
    expect(kindAndId(lowLeftRear + log(...there))).toBe('repair repair.sensor.LR');
    expect(lineOf(lowLeftRear + log(...there))).toBe('cornerwise log s7.yaml replaced|repaired sensor.LR');
    const fitted = [...there, 'did: replaced, what: sensor.LR'];
    expect(kindAndId(lowLeftRear + log(...fitted))).toBe('retest retest.sensor.LR');
  });

  it('is never to hand over a leak that a test found, though every reading is good', () => {
    const found = judge(pack, sound + rated + log('did: tested, what: pins, found: low'), evening);
    expect(found.faults.map(({ component, proof }) => [component, proof.by])).toEqual([]);
    expect(found.now.kind).not.toBe('hand-over');
    const confirmed = pack.replace(
      'title: battery\n    prior: 3',
      'title: battery\n    confirm: [{test: pins, found: low}]\n    prior: 3',
    );
    const sheet = judge(confirmed, sound + rated + log('did: tested, what: pins, found: low'), evening);
    expect(sheet.faults.map(({ component, proof }) => [component, proof.by])).toEqual([['battery', 'test']]);
  });

  it('ends as declined where the customer does not want the repair', () => {
    const declined = lowLeftRear + log(...looked, tried, 'did: declined, what: sensor.LR');
    expect(nowOf(declined)).toMatchObject({ kind: 'step', id: 'close', title: { closing: 'declined' } });
  });

  it('waits for what somebody named', () => {
    const waiting = sound + log('did: waiting, what: vehicle, for: the driver');
    expect(nowOf(waiting)).toMatchObject({ kind: 'wait', for: 'customer', title: { whom: 'the driver' } });
    expect(lineOf(waiting)).toBe('cornerwise log s7.yaml noted vehicle --note "…"');
  });

  it('is to decide where a fault was worked on twice to no avail, which still holds the release', () => {
    const paid = [seen, 'did: authorised, what: cost', 'did: repaired, what: sensor.LR'];
    const skipped = ['try-arm.LR', 'pins', 'other-module'].map(
      (what) => `did: skipped, what: ${what}, reason: done before`,
    );
    const sheet = judge(
      pack,
      lowLeftRear +
        log(
          ...paid,
          seen,
          'did: replaced, what: sensor.LR',
          seen,
          ...looked.slice(1),
          'did: inspected, what: battery, found: nothing-seen',
          ...skipped,
        ) +
        rated,
    );
    expect(sheet.faults).toMatchObject([{ component: 'sensor.LR', spent: true }]);
    expect(sheet.now).toMatchObject({ kind: 'decide' });
    expect(sheet.steps.map(({ id }) => id)).not.toContain('bench/repair.sensor.LR');
    expect(sheet.now.instead.map((command) => commandText(command, 's7.yaml'))).toContain(
      'cornerwise log s7.yaml declined sensor.LR --by "…"',
    );
    expect(mayLeave(sheet).verdict).toBe('do-not-release');
  });

  it('does not close as repaired what was declined', () => {
    const gone = log('did: declined, what: sensor.LR', 'did: released, what: vehicle');
    expect(lineOf(sound + gone)).toBe(
      'cornerwise log s7.yaml closed --result declined --reason "…" --by "…"',
    );
  });

  it('releases nothing that may not be driven, whatever else is in order', () => {
    const onStops = sound.replace('state: key-on\n', 'state: key-on\n    conditions: {on-stops: yes}\n');
    const sheet = judge(pack, onStops + rated + log('did: noted, what: stop'));
    expect(sheet.now.kind).not.toBe('hand-over');
    expect(holdPointOf(sheet, 'release')).toMatchObject({
      clear: false,
      reasons: [{ kind: 'forbidden', acts: ['drive'] }],
    });
    const worked = log(
      'did: noted, what: stop',
      'did: authorised, what: cost',
      'did: disconnected, what: battery',
    );
    expect(lineOf(onStops + worked)).toBe('cornerwise add s7.yaml key-on on-stops=… battery=…');
    const silent = `${onStops}  - {id: read, at: 2026-03-02T09:50, state: key-on, readings: {${signals({})}, battery: 12.5 V}, codes: []}\n`;
    expect(lineOf(silent + worked)).toBe('cornerwise add s7.yaml key-on on-stops=yes|no');
    const up = `${onStops}  - {id: up, at: 2026-03-02T10:00, state: key-on, conditions: {on-stops: no}, readings: {${signals({})}, battery: 12.5 V}, codes: []}\n`;
    expect(kindAndId(up + worked)).toBe('step bench/road-test');
  });

  it('goes on with a vehicle that was released and shows something new', () => {
    const again = `${sound}  - {id: back, at: 2026-03-02T12:00, state: key-on, readings: {${signals({ LR: '0.50 V' })}, battery: 12.5 V}, codes: []}\n`;
    const released = log('did: released, what: vehicle');
    expect(nowOf(sound + released)).toMatchObject({ title: { closing: 'repaired' } });
    expect(nowOf(again + released).kind).toBe('test');
  });

  it('stops again at a danger that came back after it was acknowledged and gone', () => {
    const over = keyOn(`{${signals({})}, battery: 12.5 V, supply: 16.9 V}`, codes);
    const later = (id: string, at: string, supply: string): string =>
      `  - {id: ${id}, at: 2026-03-02T${at}, state: key-on, readings: {${signals({})}, battery: 12.5 V, supply: ${supply}}, codes: []}\n`;
    const heeded = log('did: noted, what: stop');
    const still = later('still', '10:00', '16.8 V');
    const gone = later('gone', '11:00', '13 V');
    expect(nowOf(over + still + heeded).kind).not.toBe('stop');
    expect(nowOf(over + gone + later('back', '12:00', '16.8 V') + heeded).kind).toBe('stop');
  });

  it('passes on a step that failed twice, and then takes it as done by others', () => {
    const work = ['did: authorised, what: cost', 'did: disconnected, what: battery'];
    const failed = 'did: drove, what: road-test, result: failed';
    const read = `  - {id: after, at: 2026-03-02T09:30, state: key-on, readings: {${signals({})}, battery: 12.5 V}, codes: []}\n`;
    const line = (...entries: string[]): string => lineOf(`${sound}${read}${log(...work, ...entries)}`);
    expect(line(failed)).toBe('cornerwise log s7.yaml drove road-test --result passed|failed');
    expect(line(failed, failed)).toBe('cornerwise log s7.yaml passed-on road-test --to "…" --by "…"');
    expect(line(failed, failed, 'did: passed-on, what: road-test, to: the dealer')).toBe(
      'cornerwise log s7.yaml completed road-test --by "…"',
    );
  });
});
