import { describe, expect, it } from 'vitest';
import { runCli } from '../support/run.ts';

const packs = '[position-signals@1, supply-charging@1, air-supply@1, module-replacement@1, handover@1]';
const head = (more = '', chosen = packs): string => `worksheet: 1
job: J1
title: Refusals
opened: 2026-03-02T08:00
zone: Europe/Dublin
status: open
packs: ${chosen}
vehicle:
  name: Shuttle 4
  layout: four-corner-air
  battery: flooded
  charging: fixed
${more}`;

const check = (stdin: string, ...flags: string[]) =>
  runCli(['check', '-', '--as-of', '2026-03-02T18:00', ...flags], { cwd: '/', stdin });

describe("the vehicle's own figures", () => {
  const figures = (of: string) => `  service-data:
    - {check: position-signals/rails, of: ${of}, between: [1 V, 2 V], source: workshop manual}`;

  it.each(['nonsense', 'position.XX', 'tank', 'front'])('of %s are refused at their place', async (of) => {
    const { code, stderr } = await check(head(figures(of)));
    expect(code).toBe(2);
    expect(stderr).toContain('-:14:43');
    expect(stderr).toContain('[unknown-name]');
  });

  it('of a check that this job does not concern are looked at all the same', async () => {
    const { code, stderr } = await check(
      head(figures('nonsense').replace('position-signals/rails', 'supply-charging/programming-supply')),
    );
    expect(code).toBe(2);
    expect(stderr).toContain('programming-supply does not judge "nonsense"');
  });

  it.each(['LR', 'position.LR'])('of %s are read', async (of) => {
    expect((await check(head(figures(of)))).code).toBe(0);
  });
});

describe('a job that no check concerns', () => {
  it('is wrong input, since its silence would read as good news', async () => {
    const job = head('', '[air-supply@1]').replace('four-corner-air', 'four-corner-sensors');
    const { code, stderr } = await check(job);
    expect(code).toBe(2);
    expect(stderr).toContain('[no-checks]');
  });
});

describe('times that leave it open what came first', () => {
  it('a log entry wants its time of day', async () => {
    const { code, stderr } = await check(head('log: [{at: 2026-03-02, did: replaced, what: sensor.LR}]'));
    expect(code).toBe(2);
    expect(stderr).toContain('write it like 2026-03-02T08:40');
  });

  it('--as-of in the hour that the zone skips is refused, and taken with an offset', async () => {
    const skipped = await runCli(['check', '-', '--as-of', '2026-03-29T01:30'], { cwd: '/', stdin: head() });
    expect(skipped.code).toBe(2);
    expect(skipped.stderr).toContain('[skipped-time]');
    const told = await runCli(['check', '-', '--as-of', '2026-03-29T01:30Z'], { cwd: '/', stdin: head() });
    expect(told.code).toBe(0);
  });
});

describe('an authorisation after the time judged', () => {
  it('is left out with a warning', async () => {
    const costs = 'costs: {authorised: [{at: 2026-03-03T09:00, amount: 100}]}';
    const { stdout } = await check(head(costs));
    expect(stdout).toContain('the authorisation of 100.00');
  });
});

describe('a release', () => {
  const release = async (job: string): Promise<{ clear: boolean; reasons: string[] }> => {
    const { stdout } = await check(job, '--format', 'json');
    const sheet = JSON.parse(stdout) as {
      jobs: { holdPoints: { id: string; clear: boolean; reasons: string[] }[] }[];
    };
    const point = sheet.jobs[0]?.holdPoints.find(({ id }) => id === 'release');
    if (!point) throw new Error('no release');
    return point;
  };

  const good = (position: string, lamp: string): string =>
    head(`snapshots:
  - id: key
    at: 2026-03-02T08:40
    state: key-on
    conditions: {floor: level, load: empty, air: 8 °C, maintainer: off}
    readings: {supply: 12.40 V, battery: 12.45 V, position: ${position}, tank: 130 psi}
${lamp}
    codes: []
  - {id: crank, at: 2026-03-02T08:42, state: cranking, readings: {battery: 10.9 V}}
  - id: run
    at: 2026-03-02T08:45
    state: running
    conditions: {floor: level, load: empty}
    readings: {supply: 14.20 V, battery: 14.25 V, battery-temperature: 25 °C, position: ${position}}
log: [{at: 2026-03-02T08:30, did: completed, what: verify-complaint}]
`);
  const signals = '{LF: 2.5 V, RF: 2.5 V, LR: 2.5 V, RR: 2.5 V}';

  it('is clear on a healthy vehicle that was read', async () => {
    expect(await release(good(signals, '    lamp: off'))).toMatchObject({ clear: true, reasons: [] });
  });

  it('is not while the lamp was not noted', async () => {
    const { clear, reasons } = await release(good(signals, ''));
    expect(clear).toBe(false);
    expect(reasons.join()).toContain('Warning lamp');
  });

  it('is not while readings have only reasons why they were not taken', async () => {
    const none = signals.replaceAll('2.5 V', '{why: plug seized}');
    expect((await release(good(none, '    lamp: off'))).clear).toBe(false);
  });
});
