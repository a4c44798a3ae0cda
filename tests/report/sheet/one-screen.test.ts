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
  'shuttle-05-rear-too-high': [40, 33, 'three cautions before the learn, and nine steps'],
  'shuttle-12-four-sensor-codes': [51, 38, 'a long caution, three hold points and ten steps'],
  'shuttle-13-lamp-since-the-wash': [43, 31, 'two cautions, and tapes that double the corners'],
  'shuttle-15-over-voltage-code': [44, 34, 'a long caution, two hold points and nine steps'],
  '01-lamp-since-wash-stopped-levelling': [42, 30, 'a long caution and five findings at hold'],
  '101-bang-and-down-at-one-corner': [40, 31, 'a danger, and two hold points between four steps'],
  '22-switched-itself-off': [42, 32, 'two cautions and four findings at hold'],
  '238-flat-after-the-long-weekend-and-crooked': [43, 32, 'nine steps and three hold points'],
  '91-lamp-and-a-weak-start': [45, 33, 'two cautions and five findings at hold'],
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
