import { describe, expect, it } from 'vitest';
import type { Advice, AdviceCondition } from '../../../src/core/suspects/ranking.ts';
import { keyOn } from '../../support/judge.ts';
import { benchPack, rank, signals } from './bench-pack.ts';

const rated = 'costs: {labour-rate: 60 / h}\n';
const lowLeftRear = keyOn(`{${signals({ LR: '0.50 V' })}, supply: 12.50 V}`);
const stuck = '{at: 2026-03-02T09:00, did: tested, what: try-arm.LR, found: stuck}';

const adviceOf = (job: string, pack: string = benchPack): Advice => {
  const { advice } = rank(job, pack);
  if (advice === null) throw new Error('no advice');
  return advice;
};
const condition = (advice: Advice, id: AdviceCondition['id']): AdviceCondition => {
  const found = advice.conditions.find((one) => one.id === id);
  if (!found) throw new Error(`no condition ${id}`);
  return found;
};

describe('advice on the leading suspect', () => {
  it('names the five conditions, and is met where all are', () => {
    const looked = ['sensor.LR', 'wire.LR'].map(
      (what) => `{at: 2026-03-02T09:10, did: inspected, what: ${what}, found: nothing-seen}`,
    );
    const advice = adviceOf(`${lowLeftRear}log: [${[stuck, ...looked].join(', ')}]\n${rated}`);
    expect(advice.suspect).toBe('sensor.LR');
    expect(advice.conditions.map(({ id, met }) => [id, met])).toEqual([
      ['least-risk', true],
      ['no-test-pays', true],
      ['over-threshold', true],
      ['confirmed', true],
      ['robust', true],
    ]);
    expect(advice.met).toBe(true);
  });

  it('waits for a test that pays, and for what must be confirmed', () => {
    const advice = adviceOf(lowLeftRear + rated);
    expect(advice.met).toBe(false);
    // A look takes three minutes, so that it pays as well.
    expect(condition(advice, 'no-test-pays')).toMatchObject({
      met: false,
      lacks: ['try-arm.LR', 'inspected sensor.LR', 'inspected wire.LR'],
    });
    expect(condition(advice, 'confirmed')).toMatchObject({ met: false, lacks: ['try-arm.LR'] });
  });

  it('gives the probability from which fixing is worth more than escalating: W / (W + E)', () => {
    // 140 and an hour at 60, against 300.
    const advice = adviceOf(lowLeftRear + rated);
    expect(advice.worthFixing).toBeCloseTo(200 / 500, 12);
    expect(condition(advice, 'over-threshold').threshold).toBeCloseTo(0.4, 12);
    const cheap = adviceOf(
      lowLeftRear + rated,
      benchPack.replace('escalate: {amount: 300}', 'escalate: {amount: 60}'),
    );
    expect(condition(cheap, 'over-threshold').met).toBe(false);
    expect(condition(cheap, 'least-risk')).toMatchObject({ met: false, lacks: ['escalate'] });
  });

  it('prefers a cheaper part where trying that loses less', () => {
    const dear = benchPack.replace(
      'wrong-part: {amount: 140, minutes: 60}',
      'wrong-part: {amount: 800, minutes: 60}',
    );
    expect(condition(adviceOf(lowLeftRear + rated, dear), 'least-risk').lacks).toEqual(['wire.LR']);
  });

  it('names the evidence that would turn it, weighed half or double', () => {
    const hanging = benchPack.replace('escalate: {amount: 300}', 'escalate: {amount: 200}');
    const advice = adviceOf(lowLeftRear + rated, hanging);
    expect(condition(advice, 'over-threshold').met).toBe(true);
    expect(condition(advice, 'robust')).toMatchObject({ met: false, lacks: ['corners'] });
  });

  it('wants each confirmation current and with its own outcome', () => {
    const smooth = '{at: 2026-03-02T09:30, did: tested, what: try-arm.LR, found: smooth}';
    const other = '{at: 2026-03-02T09:00, did: tested, what: try-arm.RF, found: stuck}';
    for (const log of [smooth, other]) {
      const advice = adviceOf(
        `${lowLeftRear}log: [${log}]\n${rated}`,
        benchPack.replace('prior: 2', 'prior: 0.1'),
      );
      expect(condition(advice, 'confirmed')).toMatchObject({ met: false, lacks: ['try-arm.LR'] });
    }
  });

  it('takes readings for a confirmation where a group says so', () => {
    const several = signals({ LF: '0.50 V', LR: '0.50 V' });
    const module = `{${several}, supply: 11.00 V, tank: 120 psi`;
    const lacks = (job: string) => condition(adviceOf(job + rated), 'confirmed').lacks;
    expect(lacks(keyOn(`${module}}`))).toEqual(['pins', 'reference']);
    expect(lacks(keyOn(`${module}, reference: 5.00 V}`))).toEqual(['pins']);
    const pins = 'log: [{at: 2026-03-02T09:00, did: tested, what: pins, found: good}]\n';
    expect(lacks(`${keyOn(`${module}, reference: 5.00 V}`)}${pins}`)).toEqual([]);
  });

  it('takes any value but a good one where a group is to be out', () => {
    const wanting = (group: string): string =>
      benchPack.replace(
        'wrong-part: {amount: 180, minutes: 20}',
        `wrong-part: {amount: 180, minutes: 20}\n    confirm: [{group: ${group}, shows: out}]`,
      );
    const low = `${keyOn(`{${signals()}, supply: 11.00 V, reference: 5.00 V}`)}${rated}`;
    expect(adviceOf(low, wanting('supply')).suspect).toBe('battery');
    expect(condition(adviceOf(low, wanting('supply')), 'confirmed').met).toBe(true);
    expect(condition(adviceOf(low, wanting('reference')), 'confirmed').lacks).toEqual(['reference']);
  });

  it('takes an outcome that tells the corner for the suspect of that corner alone', () => {
    const pack = `${benchPack.replace('confirm: [{test: try-arm, found: stuck}]', 'confirm: [{test: look, found: loose-corner}]')}  - id: look
    title: Look at the sensors
    minutes: 5
    outcomes:
      - {id: all-fast, title: none is loose, how: {sensor: rarely, others: usually}}
      - {id: loose-LR, title: the left rear is loose, how: {sensor.LR: usually, sensor: never, others: never}}
      - {id: loose-RF, title: the right front is loose, how: {sensor.RF: usually, sensor: never, others: never}}
`;
    const found = (outcome: string) =>
      adviceOf(
        `${lowLeftRear}log: [{at: 2026-03-02T09:00, did: tested, what: look, found: ${outcome}}]\n${rated}`,
        pack.replace(
          'id: sensor\n    per: corner\n    title: position sensor\n    prior: 4',
          'id: sensor\n    per: corner\n    title: position sensor\n    prior: 400',
        ),
      );
    expect(found('loose-LR').suspect).toBe('sensor.LR');
    expect(condition(found('loose-LR'), 'confirmed').met).toBe(true);
    expect(found('all-fast').suspect).toBe('sensor.LR');
    expect(condition(found('all-fast'), 'confirmed')).toMatchObject({ met: false, lacks: ['look'] });
  });

  it('is none without a labour rate, without a cost of escalating, and for something else', () => {
    expect(rank(lowLeftRear).advice).toBeNull();
    expect(rank(lowLeftRear + rated, benchPack.replace('escalate: {amount: 300}\n', '')).advice).toBeNull();
    const vague = benchPack.replace('share: 0.07', 'share: 0.90');
    const ranking = rank(lowLeftRear + rated, vague);
    expect(ranking.suspects[0]?.id).toBe('something-else');
    expect(ranking.advice).toBeNull();
  });
});
