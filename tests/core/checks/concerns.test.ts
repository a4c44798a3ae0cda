import { describe, expect, it } from 'vitest';
import { judge, keyOn } from '../../support/judge.ts';

/** Whether a check has to do with a job is asked once, whatever its kind. */
const check = (kind: string): string =>
  `checks: [{id: one, kind: ${kind}, title: One, basis: {kind: from-memory}, concerns: {did: ordered, what: control-module}, layouts: [four-corner-air]}]`;
const range = check('range, of: supply, in: [key-on], tiers: [{weight: look, at-least: 11.8 V}]');
const lamp = check('lamp, weight: hold');
const codes = check('stored-codes, weights: {stored: hold}');

const ordered = 'log: [{at: 2026-03-02T09:00, did: ordered, what: control-module}]';
const read = keyOn('{supply: 11.20 V}', '    lamp: on\n    codes: []\n');
const count = (pack: string, job: string): number => judge(pack, job).findings.length;

describe('a check that only some jobs concern', () => {
  it.each([
    ['range', range],
    ['lamp', lamp],
    ['codes', codes],
  ])('%s is silent until the log has it, and on another layout', (_, pack) => {
    expect(count(pack, read)).toBe(0);
    expect(count(pack, `${read}${ordered}`)).toBe(1);
    const other = 'vehicle: {name: Shuttle 7, layout: four-corner-sensors}\n';
    expect(count(pack, `${other}${read}${ordered}`)).toBe(0);
  });
});
