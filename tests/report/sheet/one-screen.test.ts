import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { mayLeave } from '../../../src/core/outlook/may-leave.ts';
import { renderWorksheet } from '../../../src/report/sheet/sheet.ts';
import { makeStyle } from '../../../src/report/style.ts';
import { longTests } from '../../support/long-tests.ts';
import { sheetOpener } from '../../support/open-sheet.ts';
import { projectRoot } from '../../support/run.ts';

/** Lines of one screen, by its columns; a vehicle with nothing to be said against it needs half. */
const screens = [
  { width: 80, lines: 40 },
  { width: 120, lines: 30 },
] as const;
const healthyLines = 20;

/** Sheets that are longer than a screen at 80 and 120 columns, with what is never shortened and makes them so. */
const longer: Readonly<Record<string, readonly [narrow: number, wide: number, why: string]>> = {
  'shuttle-12-four-sensor-codes': [45, 33, 'four findings at hold, three hold points and ten steps'],
  'shuttle-15-over-voltage-code': [46, 36, 'a long caution, two hold points and eleven steps'],
  '101-bang-and-down-at-one-corner': [40, 31, 'a danger, and two hold points between four steps'],
  '222-dim-at-night-and-a-lamp-on-bumps': [41, 30, 'two cautions, and the findings at hold of two faults'],
  '91-lamp-and-a-weak-start': [41, 30, 'two cautions and five findings at hold'],
  '94-lights-dim-and-one-corner-dead': [42, 30, 'two cautions, and the findings at hold of two faults'],
};

/** After all that the files tell of. */
const asOf = Date.UTC(2026, 11, 31, 12);

const filesIn = (folder: string): string[] =>
  readdirSync(join(projectRoot, folder))
    .filter((name) => name.endsWith('.yaml') && !name.endsWith('.key.yaml') && name !== 'cornerwise.yaml')
    .map((name) => `${folder}/${name}`);

const nameOf = (file: string): string => file.replace(/^.*\//u, '').replace('.yaml', '');

const cases = filesIn('tests/cases');
const files = [
  ...filesIn('examples'),
  // All of them take half a minute; the exceptions and one in eight are always looked at.
  ...cases.filter((file, at) => longTests || at % 8 === 0 || longer[nameOf(file)] !== undefined),
];

const open = sheetOpener();

const linesAt = (text: string): number => text.split('\n').length - 1;

describe.each(files)('%s', (file) => {
  it('fits on one screen', async () => {
    const sheet = await open(file, asOf);
    const isHealthy = mayLeave(sheet).verdict === 'may-leave' && sheet.now.kind === 'hand-over';
    const own = longer[nameOf(file)];
    for (const [at, { width, lines }] of screens.entries()) {
      const text = renderWorksheet(
        sheet,
        file,
        makeStyle({ width, colour: 0, ascii: false, all: false, pressureUnit: null, temperatureUnit: null }),
      );
      const limit = isHealthy ? healthyLines : (own?.[at === 0 ? 0 : 1] ?? lines);
      expect(linesAt(text), `${file} at ${width} columns\n${text}`).toBeLessThanOrEqual(limit);
    }
  });
});

describe('the sheets that may be longer', () => {
  it.each(Object.entries(longer))('%s is', (_, [narrow, wide]) => {
    expect(narrow > 40 || wide > 30).toBe(true);
  });
});
