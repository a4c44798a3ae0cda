import { join } from 'node:path';
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { assess, assessBriefly } from '../../src/core/assess.ts';
import { mayLeave } from '../../src/core/outlook/may-leave.ts';
import { type PreparedPacks, preparePacks } from '../../src/core/prepare/prepared-packs.ts';
import { afterChange } from '../../src/report/entry/after.ts';
import { renderJson } from '../../src/report/json/json.ts';
import { renderNext } from '../../src/report/next/page.ts';
import { renderWorksheet } from '../../src/report/sheet/sheet.ts';
import { makeStyle } from '../../src/report/style.ts';
import { standingOf } from '../../src/report/sweep/standing.ts';
import { commandText } from '../../src/report/words/command-words.ts';
import { mayLeaveText } from '../../src/report/words/leave-words.ts';
import { nowTitle } from '../../src/report/words/now-words.ts';
import { newestPacks, openLibrary } from '../../src/shell/library.ts';
import { changes } from '../core/changed-job.ts';
import { nextTime } from '../support/follow-now.ts';
import { projectRoot } from '../support/run.ts';
import { cases, examples, type Written } from '../support/written-jobs.ts';

/** Every command says the same of a job: what to do now, the line to type, and whether the vehicle may leave. */

let prepared: PreparedPacks = preparePacks([]);
let written: readonly Written[] = [];
beforeAll(async () => {
  prepared = preparePacks(await newestPacks(openLibrary([join(projectRoot, 'rules')])));
  written = [...examples(prepared), ...cases(prepared)];
});

// So wide that nothing is wrapped or shortened.
const style = makeStyle({
  width: 4000,
  colour: 0,
  ascii: false,
  all: false,
  pressureUnit: null,
  temperatureUnit: null,
});

/** The lines of a text that say what is to be done now. */
const toldIn = (text: string): string[] => {
  const lines = text.split('\n');
  const first = lines.findIndex((line) => line.startsWith('Now: '));
  const end = lines.indexOf('', first);
  return lines.slice(first, end);
};

describe('what is to be done now', () => {
  it('is the same in a sheet, in the long form, after an entry, in JSON and in the row of a sweep', () => {
    fc.assert(
      fc.property(fc.nat(), changes, (which, change) => {
        const start = written[which % written.length];
        if (!start) throw new Error('there is no job');
        const job = change(start.job, prepared.packs);
        const at = nextTime(job);
        const whole = assess(job, prepared, at);
        const brief = assessBriefly(job, prepared, at);
        const title = nowTitle(whole.now);
        const line = whole.now.command && commandText(whole.now.command, 's7.yaml');
        const leaves = mayLeaveText(mayLeave(whole), job.zone, 4000);

        const sheet = renderWorksheet(whole, 's7.yaml', style);
        const texts = [
          sheet,
          renderNext(whole, 's7.yaml', style),
          afterChange(['written'], null, brief, 's7.yaml', style),
        ];
        for (const text of texts) {
          const told = toldIn(text);
          expect(told[0]?.startsWith(`Now: ${title}`)).toBe(true);
          if (line !== null) expect(told).toContain(`     ${line}`);
        }
        expect(sheet.split('\n')[1]).toBe(leaves);

        const result = { file: 's7.yaml', sheet: whole, problems: null, compared: null };
        const [{ now }] = JSON.parse(renderJson([result], at, '1.0.0')).jobs;
        expect({ title: now.title, command: now.command }).toEqual({ title, command: line });
        const row = standingOf(brief, 'hold').now;
        expect({ title: row.title, command: row.command && commandText(row.command, 's7.yaml') }).toEqual({
          title,
          command: line,
        });
      }),
      { numRuns: 25 },
    );
  });
});
