import { describe, expect, it } from 'vitest';
import { inspectionsOf } from '../../../src/core/suspects/inspections.ts';
import { suspectModel } from '../../../src/core/suspects/suspect-model.ts';
import { keyOn, packOf } from '../../support/judge.ts';
import { aloneOf, benchPack, rank, signals } from './bench-pack.ts';

const rated = 'costs: {labour-rate: 60 / h}\n';
const off = keyOn(`{${signals({ LR: '0.50 V' })}, supply: 12.50 V}`);
const looked = (what: string, found: string): string =>
  `log: [{at: 2026-03-02T09:00, did: inspected, what: ${what}, found: ${found}}]\n`;

describe('a look at a component', () => {
  const pack = packOf(
    benchPack
      .replace('    title: battery\n', '    title: battery\n    inspect: {minutes: 7, sees: 0.6}\n')
      .replace('    title: tank\n', '    title: tank\n    repair: none\n'),
  );
  const { hypotheses, tests } = suspectModel([pack], {
    layout: 'four-corner-air',
    fitted: ['LF', 'RF', 'LR', 'RR'],
  });
  const found = (id: string) => tests.find((one) => one.id === id);

  it('is there for each that would be repaired, at its place, and for no instrument', () => {
    const ids = inspectionsOf(hypotheses).map(({ id }) => id);
    expect(ids).toContain('inspected sensor.LR');
    expect(ids).toContain('inspected control-module');
    expect(ids).not.toContain('inspected tank');
    expect(ids).not.toContain('inspected something-else');
    expect(new Set(ids).size).toBe(ids.length);
  });

  it('takes its own minutes and sees as often as the pack says, and hardly ever a fault of a good one', () => {
    const battery = found('inspected battery');
    expect(battery?.test.minutes).toBe(7);
    const [seen, nothing] = battery?.outcomes ?? [];
    for (const [place, { id }] of hypotheses.entries()) {
      expect(seen?.[place]).toBe(id === 'battery' ? 0.6 : 0.004);
      expect((seen?.[place] ?? 0) + (nothing?.[place] ?? 0)).toBeCloseTo(1, 12);
    }
    expect(found('inspected sensor.RF')?.test.minutes).toBe(3);
  });

  it('at one corner is about that corner alone', () => {
    const [seen] = found('inspected sensor.LR')?.outcomes ?? [];
    const at = (id: string) => seen?.[hypotheses.findIndex((one) => one.id === id)];
    expect([at('sensor.LR'), at('sensor.RR'), at('wire.LR')]).toEqual([0.35, 0.004, 0.004]);
  });
});

describe('what an eye saw', () => {
  it('outweighs what volts say between the suspects of a corner', () => {
    expect(rank(off).suspects[0]?.id).toBe('sensor.LR');
    const after = rank(off + looked('wire.LR', 'fault-seen'));
    expect(after.suspects[0]?.id).toBe('wire.LR');
    expect(after.suspects[0]?.probability).toBeGreaterThan(0.9);
    expect(after.suspects[0]?.for).toContain('inspected wire.LR');
  });

  it('speaks a little against its component where nothing was seen, by how often an eye sees it', () => {
    const odds = (of: ReturnType<typeof rank>): number => aloneOf(of, 'wire.LR') / aloneOf(of, 'sensor.LR');
    const after = rank(off + looked('wire.LR', 'nothing-seen'));
    expect(odds(after) / odds(rank(off))).toBeCloseTo((1 - 0.35) / (1 - 0.004), 9);
  });

  it('starts a search where everything reads well', () => {
    const well = keyOn(`{${signals()}, supply: 12.50 V}`);
    const ranking = rank(well + looked('sensor.RF', 'fault-seen'));
    expect(ranking.suspects[0]?.id).toBe('sensor.RF');
  });

  it('is not offered again, and is over once the component was worked on', () => {
    const listed = (log: string) => rank(off + log + rated).nextTests.map(({ id }) => id);
    expect(listed('')).toContain('inspected wire.LR');
    expect(listed(looked('wire.LR', 'nothing-seen'))).not.toContain('inspected wire.LR');
    const entries = [
      '{at: 2026-03-02T09:00, did: inspected, what: sensor.LR, found: nothing-seen}',
      '{at: 2026-03-02T10:00, did: replaced, what: sensor.LR}',
    ];
    const again = `  - {id: later, at: 2026-03-02T12:00, state: key-on, readings: {${signals({ LR: '0.50 V' })}}}\n`;
    const worked = rank(`${off}${again}log: [${entries.join(', ')}]\n${rated}`);
    expect(worked.nextTests.map(({ id }) => id)).toContain('inspected sensor.LR');
  });
});

describe('a confirmation by sight', () => {
  const confirmed = (job: string) =>
    rank(job + rated).advice?.conditions.find(({ id }) => id === 'confirmed');

  it('stands for the tests that the pack wants', () => {
    expect(confirmed(off)).toMatchObject({ met: false, lacks: ['try-arm.LR'] });
    expect(confirmed(off + looked('sensor.LR', 'fault-seen'))).toMatchObject({ met: true, lacks: [] });
    expect(confirmed(off + looked('sensor.LR', 'nothing-seen'))).toMatchObject({ met: false });
  });

  it('of another corner does not', () => {
    const strong = benchPack.replace('    prior: 4\n', '    prior: 400\n');
    const seen = rank(off + looked('wire.RF', 'fault-seen') + rated, strong);
    expect(seen.advice?.suspect).toBe('sensor.LR');
    expect(seen.advice?.conditions.find(({ id }) => id === 'confirmed')?.lacks).toEqual(['try-arm.LR']);
  });

  it('never stands for the pins of the control module', () => {
    const several = signals({ LF: '0.50 V', LR: '0.50 V' });
    const module = keyOn(`{${several}, supply: 11.00 V, reference: 5.00 V}`);
    const ranking = rank(module + looked('control-module', 'fault-seen') + rated);
    expect(ranking.advice?.suspect).toBe('control-module');
    expect(ranking.advice?.conditions.find(({ id }) => id === 'confirmed')).toMatchObject({
      met: false,
      lacks: ['pins'],
    });
  });
});
