import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { displayWidth } from '../../../src/report/columns.ts';
import type { SweepRendering } from '../../../src/report/sweep/rendering.ts';
import { renderSweepTable } from '../../../src/report/sweep/table.ts';
import { anyGone, anyRows, finding, gone, inOrder, night, nowOf, renderingOf, row, shown } from './rows.ts';

const table = (rendering: SweepRendering): string => shown(renderSweepTable, rendering);
const options = renderingOf([]).options;

describe('a night for people', () => {
  it('is a line a job at 80 columns, the worst first, and a second one only for more', () => {
    expect(inOrder(night())).toBe(true);
    expect(table(renderingOf(night()))).toMatchInlineSnapshot(`
      "Sweep as of 2026-03-02 18:00 Europe/Dublin; files in jobs/; pts: hold points not
        clear
      worst days pts vehicle    file worst finding         now
      ERROR jobs/s08.yaml:2:1                              Correct the file
            there is no key "jbo" here; and 1 more problem
      HOLD    40   1 Shuttle 9  s09  Voltage while cranki… Load test of the battery
            1 warning
            WAIVER ENDED 2026-02-27: supply-charging/cranking (battery on order)
      HOLD    12   2 Shuttle 7  s07  Left against right +2 Angles of the sensor arms,…
      look     5   1 Shuttle 22 s22  close: Charging volt… Wait for the Ride-height l…
            waits for access for height-learn · access for height-learn ends
              2026-03-04 18:00
      point    3   1 Shuttle 10 s10  not clear: Release t… Readings still to take, cr…
      steps    1     Shuttle 3  s03  1 step outstanding    Hand over the vehicle and…
      clear   12     Shuttle 19 s19  nothing out           Hand over the vehicle and…

      7 jobs: ERROR 1 (cannot be judged) · HOLD 2 · look 1 · point 1 (hold point not
        clear) · steps 1 (only steps outstanding) · clear 1 (nothing outstanding)
      Status: 5 open, 1 waiting · Waivers and access: 1 ended, 1 to end within 7 days

      All limits here are general. The vehicle maker’s service information, local
      codes and licensed practice come first.
      "
    `);
  });

  it('has room for more at 120 columns', () => {
    const rendering = renderingOf(night(), { options: { ...options, width: 120 } });
    expect(table(rendering)).toMatchInlineSnapshot(`
      "Sweep as of 2026-03-02 18:00 Europe/Dublin; files in jobs/; pts: hold points not clear
      worst days pts vehicle    file worst finding                          now
      ERROR jobs/s08.yaml:2:1                                               Correct the file
            there is no key "jbo" here; and 1 more problem
      HOLD    40   1 Shuttle 9  s09  Voltage while cranking                 Load test of the battery, 6 min · 1 warning
            WAIVER ENDED 2026-02-27: supply-charging/cranking (battery on order)
      HOLD    12   2 Shuttle 7  s07  Left against right (rear key-on) +2    Angles of the sensor arms, side against side
      look     5   1 Shuttle 22 s22  close: Charging voltage                Wait for the Ride-height learn, 15 min
            waits for access for height-learn · access for height-learn ends 2026-03-04 18:00
      point    3   1 Shuttle 10 s10  not clear: Release to the driver       Readings still to take, cranking, 2 min
      steps    1     Shuttle 3  s03  1 step outstanding                     Hand over the vehicle and its record, 10 min
      clear   12     Shuttle 19 s19  nothing out                            Hand over the vehicle and its record

      7 jobs: ERROR 1 (cannot be judged) · HOLD 2 · look 1 · point 1 (hold point not clear) · steps 1 (only steps outstanding)
        · clear 1 (nothing outstanding)
      Status: 5 open, 1 waiting · Waivers and access: 1 ended, 1 to end within 7 days

      All limits here are general. The vehicle maker’s service information, local codes and licensed practice come first.
      "
    `);
  });

  it('has the file below where its name is long', () => {
    const rows = night('jobs/of-the-shuttle-fleet-').slice(2, 4);
    expect(table(renderingOf(rows))).toMatchInlineSnapshot(`
      "Sweep as of 2026-03-02 18:00 Europe/Dublin; pts: hold points not clear
      worst days pts vehicle    worst finding           now
      HOLD    12   2 Shuttle 7  Left against right +2   Angles of the sensor arms, si…
            jobs/of-the-shuttle-fleet-s07.yaml
      look     5   1 Shuttle 22 close: Charging voltage Wait for the Ride-height learn
            jobs/of-the-shuttle-fleet-s22.yaml · waits for access for height-learn ·
              access for height-learn ends 2026-03-04 18:00

      2 jobs: HOLD 1 · look 1
      Status: 1 open, 1 waiting · Waivers and access: 1 to end within 7 days

      All limits here are general. The vehicle maker’s service information, local
      codes and licensed practice come first.
      "
    `);
  });

  it('tells two vehicles of one name apart by their files', () => {
    const same = table(renderingOf([row('jobs/a/s07.yaml'), row('jobs/b/s07.yaml')]));
    expect(same).toContain(' a/s07 ');
    expect(same).toContain(' b/s07 ');
    expect(same).toContain('files in jobs/');
  });

  it('is plain ASCII when asked, and no wider for it', () => {
    const rendering = renderingOf(night(), { options: { ...options, ascii: true } });
    expect(table(rendering)).toMatch(/^[\n\u0020-\u007e]*$/u);
    expect(
      table(rendering)
        .split('\n')
        .every((line) => line.length <= 80),
    ).toBe(true);
  });

  it('says the same with and without colour', () => {
    const coloured = table(renderingOf(night(), { options: { ...options, colour: 1 } }));
    expect(coloured.replace(/\u001b\[\d+(;\d+)*m/gu, '')).toBe(table(renderingOf(night())));
    expect(coloured).toContain('\u001b[1m      WAIVER ENDED');
  });

  it('keeps within its width whatever a file says, and sends no control', () => {
    fc.assert(
      fc.property(
        anyRows,
        anyGone,
        fc.integer({ min: 80, max: 140 }),
        fc.boolean(),
        fc.boolean(),
        (...made) => {
          const [rows, left, width, ascii, all] = made;
          const rendering = renderingOf(rows, {
            ...{ gone: left, compared: true, options: { ...options, width, ascii, all } },
          });
          const text = table(rendering);
          for (const line of text.split('\n')) expect(displayWidth(line)).toBeLessThanOrEqual(width);
          expect(text).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202e]| $/mu);
        },
      ),
    );
  });

  it('names a long file in full below its line', () => {
    const files = [...Array(9).keys()].map((n) => `jobs/s0${n}.yaml`);
    const long = `jobs/${'long-'.repeat(9)}name.yaml`;
    expect(table(renderingOf([...files, long].map((file) => row(file))))).toContain(`\n      ${long}\n`);
  });
});

describe('what a night comes to', () => {
  it('says so where there is nothing', () => {
    expect(table(renderingOf([]))).toMatchInlineSnapshot(`
      "Sweep as of 2026-03-02 18:00 Europe/Dublin
      No job to show: none was found.

      All limits here are general. The vehicle maker’s service information, local
      codes and licensed practice come first.
      "
    `);
    const closed = { closed: 12, notJobs: 1, filtered: 0, unchanged: 0 };
    expect(table(renderingOf([], { leftOut: closed }))).toContain(
      'No job to show: all were left out.\n\nNot shown: 12 closed, 1 YAML file that is no job\n',
    );
  });

  it('says loudly that it was stopped, above and below', () => {
    const text = table(renderingOf(night(), { stopped: { done: 7, of: 412 } }));
    const lines = text
      .split('\n')
      .filter((line) => line === 'STOPPED EARLY: only 7 of 412 files were looked at');
    expect(lines).toHaveLength(2);
  });

  it('looks at no more rows than it must before the first is printed', () => {
    let given = 0;
    const rows = (function* () {
      for (; given < 10_000; given += 1) yield row(`jobs/s${given}.yaml`);
    })();
    const pieces = renderSweepTable(renderingOf([], { rows }))[Symbol.iterator]();
    pieces.next();
    expect(given).toBeLessThan(1000);
  });
});

describe('a second night', () => {
  const lamp = finding({ id: 'position-signals/lamp:lamp', title: 'Warning lamp' });
  const changed = (file: string, vehicle: string, ...says: string[]) =>
    row(file, {
      ...{ vehicle, findings: [lamp], fails: true, change: { kind: 'changed', says } },
      now: nowOf('step', 'codes', 'Save the codes of all modules before any is cleared', 5),
    });
  const three = [
    changed(
      ...([
        'jobs/2026/shuttle-07-left-rear-low.yaml',
        'Shuttle 7',
        'new Warning lamp (lamp key-on): out hold',
      ] as const),
      ...['the waiver of supply-charging/cranking is about to end', 'Release to the driver: no longer clear'],
      ...['status waiting, was open', 'now waits for the parts counter'],
    ),
    changed(
      'jobs/2026/shuttle-09-low-in-the-frost.yaml',
      'Shuttle 9',
      'gone: Voltage while cranking (battery cranking)',
    ),
    changed(
      'jobs/2026/shuttle-10-tank-said-to-leak.yaml',
      'Shuttle 10',
      'settled: Readings still to take, cranking',
    ),
  ];
  const whole = [
    ...three,
    ...[...Array(397).keys()].map((n) =>
      row(`jobs/2026/n${n}.yaml`, { change: { kind: 'unchanged', says: [] } }),
    ),
  ];
  const rendering = renderingOf(three, {
    ...{ compared: true, gone: [gone], totals: renderingOf(whole, { gone: [gone] }).totals },
    leftOut: { closed: 120, notJobs: 3, filtered: 0, unchanged: 397 },
  });

  it('fits on a screen where three of four hundred jobs changed', () => {
    const text = table(rendering);
    expect(text.split('\n').length).toBeLessThanOrEqual(24);
    expect(text).toMatchInlineSnapshot(`
      "Sweep as of 2026-03-02 18:00 Europe/Dublin, against the earlier one; pts: hold
        points not clear
      worst days pts vehicle    worst finding           now
      HOLD    12     Shuttle 7  Warning lamp            Save the codes of all modules…
            jobs/2026/shuttle-07-left-rear-low.yaml · changed: new Warning lamp (lamp
              key-on): out hold; the waiver of supply-charging/cranking is about to
              end; Release to the driver: no longer clear; 2 more
      HOLD    12     Shuttle 9  Warning lamp            Save the codes of all modules…
            jobs/2026/shuttle-09-low-in-the-frost.yaml · changed: gone: Voltage while
              cranking (battery cranking)
      HOLD    12     Shuttle 10 Warning lamp            Save the codes of all modules…
            jobs/2026/shuttle-10-tank-said-to-leak.yaml · changed: settled: Readings
              still to take, cranking
      gone jobs/s04.yaml (Shuttle 4, Rides low): no longer there

      400 jobs: HOLD 3 · clear 397 (nothing outstanding)
      Status: 400 open · Since the earlier sweep: 3 changed, 1 gone, 397 unchanged ·
        Not shown: 397 unchanged, 120 closed, 3 YAML files that are no jobs

      All limits here are general. The vehicle maker’s service information, local
      codes and licensed practice come first.
      "
    `);
  });

  it('says that nothing changed', () => {
    const leftOut = { closed: 0, notJobs: 0, filtered: 0, unchanged: 400 };
    const text = table(renderingOf([], { ...rendering, gone: [], rows: [], leftOut }));
    expect(text).toContain('Nothing changed in 400 jobs.');
  });
});
