import { Chalk, type ChalkInstance } from 'chalk';
import type { UnitName } from '../core/readings/units.ts';

/** How a worksheet is to look; width, colour and characters are options, never asked of the surroundings here. */
export interface ReportOptions {
  readonly width: number;
  /** 0 for none, up to 3 for full colour. */
  readonly colour: 0 | 1 | 2 | 3;
  readonly ascii: boolean;
  /** Show what is within, done, not needed and superseded, too. */
  readonly all: boolean;
  /** Units for people; machine output keeps each check's own. */
  readonly pressureUnit: UnitName | null;
  readonly temperatureUnit: UnitName | null;
}

export interface Style {
  readonly chalk: ChalkInstance;
  readonly options: ReportOptions;
  /** Text with only the characters that the options allow. */
  readonly text: (text: string) => string;
}

const replacements: readonly (readonly [RegExp, string])[] = [
  [/±/gu, '+/-'],
  [/°/gu, ''],
  [/Ω/gu, 'ohm'],
  [/×/gu, 'x'],
  [/·/gu, '|'],
  [/→/gu, '->'],
  [/…/gu, '...'],
  [/[–—]/gu, '-'],
  [/[─━]/gu, '-'],
  [/≥/gu, '>='],
  [/’/gu, "'"],
  [/Φ/gu, 'Phi'],
];

/** Text in plain ASCII; letters with marks lose them, anything else unknown becomes a question mark. */
export const toAscii = (text: string): string =>
  replacements
    .reduce((done, [from, to]) => done.replace(from, to), text)
    .normalize('NFKD')
    .replace(/[\u0300-\u036f]/gu, '')
    .replace(/[^\n\t\u001b\u0020-\u007e]/gu, '?');

export const makeStyle = (options: ReportOptions): Style => ({
  chalk: new Chalk({ level: options.colour }),
  options,
  text: options.ascii ? toAscii : (text) => text,
});
