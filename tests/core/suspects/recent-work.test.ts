import { describe, expect, it } from 'vitest';
import { priorsOf } from '../../../src/core/suspects/recent-work.ts';
import { suspectModel } from '../../../src/core/suspects/suspect-model.ts';
import { keyOn, packOf } from '../../support/judge.ts';
import { benchPack, probabilityOf, rank, signals } from './bench-pack.ts';

const pack = packOf(
  benchPack
    .replace('    title: wire of the sensor\n', '    title: wire of the sensor\n    component: wiring\n')
    .replace('    title: battery\n', '    title: battery\n    raised-by: [compressor]\n')
    .replace(
      'minutes-basis',
      '  - {id: sensor-ground, per: axle, title: sensor ground, prior: 1, wrong-part: {amount: 0, minutes: 10}}\nminutes-basis',
    ),
);
const { hypotheses } = suspectModel([pack], {
  layout: 'four-corner-air',
  fitted: ['LF', 'RF', 'LR', 'RR'],
});

/** The suspects that work makes likelier against the others. */
const raised = (...work: readonly string[]): string[] => {
  const after = priorsOf(hypotheses, { recentWork: work, log: [] });
  const rest = after[hypotheses.length - 1] ?? 0;
  const before = hypotheses.at(-1)?.prior ?? 0;
  return hypotheses.flatMap(({ id, prior }, place) => {
    const factor = (after[place] ?? 0) / rest / (prior / before);
    if (factor > 1.001) expect(factor).toBeCloseTo(5, 9);
    return factor > 1.001 ? [id] : [];
  });
};

describe('work before this visit', () => {
  it('makes nothing likelier where none is known', () => {
    expect(raised()).toEqual([]);
    expect(priorsOf(hypotheses, { recentWork: [], log: [] })).toEqual(hypotheses.map(({ prior }) => prior));
  });

  it('makes the suspects of its own component likelier, at its corner or at all', () => {
    expect(raised('sensor.RR')).toEqual(['sensor.RR']);
    expect(raised('sensor')).toEqual(['sensor.LF', 'sensor.RF', 'sensor.LR', 'sensor.RR']);
    expect(raised('control-module')).toEqual(['control-module']);
  });

  it('makes likelier what names it as raising it', () => {
    expect(raised('compressor')).toEqual(['battery']);
  });

  it('on the harness is on the wiring, wherever it is', () => {
    expect(raised('harness')).toEqual(['wire.LF', 'wire.RF', 'wire.LR', 'wire.RR']);
  });

  it('at a corner, an axle or a side covers what is there', () => {
    expect(raised('LR')).toEqual(['sensor.LR', 'wire.LR', 'sensor-ground.rear']);
    expect(raised('front')).toEqual(['sensor.LF', 'sensor.RF', 'wire.LF', 'wire.RF', 'sensor-ground.front']);
    expect(raised('left')).toEqual([
      'sensor.LF',
      'sensor.LR',
      'wire.LF',
      'wire.LR',
      'sensor-ground.front',
      'sensor-ground.rear',
    ]);
  });

  it('raises each suspect once, however many entries cover it', () => {
    expect(raised('sensor.RR', 'RR', 'rear')).toContain('sensor.RR');
  });

  it('leaves priors that sum to 1', () => {
    for (const work of [['sensor.RR'], ['left', 'compressor'], ['harness']])
      expect(priorsOf(hypotheses, { recentWork: work, log: [] }).reduce((sum, p) => sum + p, 0)).toBeCloseTo(
        1,
        12,
      );
  });

  it('multiplies the odds of a job by five', () => {
    const off = keyOn(`{${signals({ LR: '0.50 V' })}}`);
    const before = rank(off);
    const after = rank(`${off}recent-work: [sensor.LR]\n`);
    const odds = (of: typeof before): number => probabilityOf(of, 'sensor.LR') / probabilityOf(of, 'wire.LR');
    expect(odds(after) / odds(before)).toBeCloseTo(5, 9);
    expect(after.suspects[0]?.ledger[0]?.points).toBeCloseTo(
      (before.suspects[0]?.ledger[0]?.points ?? 0) + 10 * Math.log10(5),
      9,
    );
  });
});
