import { describe, expect, it } from 'vitest';
import { type Changes, compareSheets } from '../../src/core/changes.ts';
import { judge, keyOn } from '../support/judge.ts';

const pack = `checks:
  - {id: rails, kind: range, title: Rails, of: position, in: [key-on], basis: {kind: from-memory}, tiers: [{weight: hold, between: [0.25 V, 4.75 V]}]}
  - {id: supply, kind: range, title: Supply, of: supply, in: [key-on, running], basis: {kind: from-memory}, tiers: [{weight: look, at-least: 11.8 V}]}
  - {id: posts, kind: range, title: Posts, of: battery, in: [key-on], moment: true, basis: {kind: from-memory}, tiers: [{weight: look, at-least: 11.8 V}]}
steps:
  - {id: learn, title: Height learn, minutes: 15, when: {did: replaced, what: sensor}, answered-by: [{did: calibrated, what: ride-height}], undone-by: [{did: replaced, what: sensor}]}
  - {id: look, title: Look first, minutes: 5, answered-by: [{did: completed, what: look}]}
hold-points:
  - {id: release, title: Release, clear-when: {all: [{step: learn}, {step: look}]}}`;

const position = 'position: {LF: 2.5 V, RF: 2.5 V, LR: 2.5 V, RR: 2.5 V}';
const all = keyOn(`{${position}, supply: 12.4 V, battery: 12.5 V}`);
const log = (...entries: string[]): string =>
  `log:\n${entries.map((entry) => `  - {${entry}}`).join('\n')}\n`;
const looked = 'at: 2026-03-02T08:10, did: completed, what: look';
const replaced = 'at: 2026-03-02T10:00, did: replaced, what: sensor.LR';
const learned = 'at: 2026-03-02T11:00, did: calibrated, what: ride-height';

const between = (before: string, after: string): Changes =>
  compareSheets(judge(pack, before), judge(pack, after));
const steps = (before: string, after: string): string[] =>
  between(before, after)
    .steps.map(({ step, was, now }) => `${step.id}: ${was} to ${now}`)
    .sort();

describe('what became of a job between two worksheets', () => {
  it('is nothing between a sheet and itself', () => {
    expect(between(all, all)).toEqual({ steps: [], holdPoints: [], stale: [] });
  });

  it('tells a step that is off the sheet as gone', () => {
    expect(steps('snapshots: []', all)).toEqual(['readings/key-on: ready to null']);
  });

  it('tells a step that is done, and one that work calls for', () => {
    expect(steps(all, all + log(looked))).toEqual(['bench/look: ready to done']);
    expect(steps(all + log(looked), all + log(looked, replaced))).toEqual([
      'bench/learn: not-needed to ready',
      'readings/key-on: null to ready',
    ]);
  });

  it('tells what must be done again', () => {
    const once = all + log(replaced, learned);
    const again = all + log(replaced, learned, 'at: 2026-03-02T12:00, did: replaced, what: sensor.RR');
    expect(steps(once, again)).toContain('bench/learn: done to ready');
  });

  it('names the readings that work has made stale, and those only', () => {
    expect(between(all, all + log(replaced)).stale).toEqual([{ state: 'key-on', channels: ['position.LR'] }]);
    const two = 'at: 2026-03-02T10:05, did: replaced, what: sensor.LF';
    expect(between(all + log(replaced), all + log(replaced, two)).stale).toEqual([
      { state: 'key-on', channels: ['position.LF'] },
    ]);
  });

  it('does not name what was of its moment only', () => {
    const battery = 'at: 2026-03-02T10:00, did: replaced, what: battery';
    expect(between(all, all + log(battery)).stale).toEqual([{ state: 'key-on', channels: ['supply'] }]);
  });

  it('tells a hold point that came clear, and one that is so no more', () => {
    const points = (before: string, after: string): string[] =>
      between(before, after).holdPoints.map(({ point, clear }) => `${point.id} ${clear}`);
    expect(points(all, all + log(looked))).toEqual(['release true']);
    expect(points(all + log(looked), all + log(looked, replaced))).toEqual(['release false']);
    expect(points(all, all + log(replaced))).toEqual([]);
  });
});
