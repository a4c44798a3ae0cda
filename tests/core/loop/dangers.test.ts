import { describe, expect, it } from 'vitest';
import { forbiddenActs } from '../../../src/core/loop/dangers.ts';
import { instant, judge } from '../../support/judge.ts';

const band =
  'kind: range, of: supply, in: [key-on], tiers: [{weight: hold, between: [10 V, 16 V]}], basis: {kind: from-memory}';
const checks = `cautions: [{id: mind, text: mind your head}]
checks:
  - {id: supply, title: Supply, danger: {forbids: [charge, crank], cautions: [mind]}, ${band}}
`;
const afterRetake = checks.replace('danger: {', 'danger: {after-retake: true, ');

const read = (at: string, volts: number, conditions = ''): string =>
  `  - {id: at-${at.replace(':', '')}, at: '2026-03-02T${at}', state: key-on, ${conditions}readings: {supply: ${volts} V}}\n`;
const job = (snapshots: readonly string[], ...entries: string[]): string =>
  `snapshots:\n${snapshots.join('')}log: [${entries.join(', ')}]\n`;
const dangersOf = (pack: string, snapshots: readonly string[], ...entries: string[]) =>
  judge(pack, job(snapshots, ...entries)).dangers;
const noted = (at: string): string => `{at: '2026-03-02T${at}', did: noted, what: stop}`;

describe('a danger that a check finds', () => {
  it('lasts until a newer reading ends it', () => {
    expect(dangersOf(checks, [read('09:00', 17)])).toMatchObject([
      { id: 'bench/supply:supply', forbids: ['charge', 'crank'], acknowledged: false },
    ]);
    expect(dangersOf(checks, [read('09:00', 17), read('10:00', 13)])).toEqual([]);
  });

  it('is known since the first reading of the run beyond the limit, not of an older one', () => {
    const run = [read('08:30', 17), read('09:00', 13), read('10:00', 16.8), read('11:00', 17.1)];
    expect(dangersOf(checks, run)).toMatchObject([{ since: instant('2026-03-02T10:00') }]);
    expect(dangersOf(checks, run, noted('09:30'))).toMatchObject([{ acknowledged: false }]);
    expect(dangersOf(checks, run, noted('10:30'))).toMatchObject([{ acknowledged: true }]);
  });

  it('counts only once it was read twice, where the pack says so', () => {
    expect(dangersOf(afterRetake, [read('09:00', 17)])).toEqual([]);
    expect(dangersOf(afterRetake, [read('09:00', 17), read('09:10', 17)])).toHaveLength(1);
    expect(dangersOf(afterRetake, [read('08:30', 17), read('09:00', 13), read('09:10', 17)])).toEqual([]);
  });
});

describe('a danger that a job states', () => {
  const stops = 'conditions: {on-stops: yes}, ';

  it('lasts until a snapshot says otherwise', () => {
    expect(dangersOf(checks, [read('09:00', 12, stops), read('10:00', 12)])).toMatchObject([
      { id: 'on-stops', since: instant('2026-03-02T09:00') },
    ]);
    expect(
      dangersOf(checks, [read('09:00', 12, stops), read('10:00', 12, 'conditions: {on-stops: no}, ')]),
    ).toEqual([]);
  });

  it('forbids with the others, each act once', () => {
    const open = dangersOf(checks, [read('09:00', 17, stops)]);
    expect([...forbiddenActs(open)].sort()).toEqual(['charge', 'crank', 'drive']);
  });
});
