import { describe, expect, it } from 'vitest';
import { assess } from '../../../../src/core/assess.ts';
import { preparePacks } from '../../../../src/core/prepare/prepared-packs.ts';
import { evening, instant, jobOf, judge, keyOn, packOf } from '../../../support/judge.ts';
import { benchPack, probabilityOf, rank, ranked, rankingOf, signals } from '../bench-pack.ts';

const lowLeftRear = signals({ LR: '0.50 V' });
const ids = (job: string): (readonly [string, string])[] =>
  (rank(job).suspects[0]?.ledger ?? []).map(({ group, observed }) => [group, observed] as const);

describe('what a group of evidence rests on', () => {
  it('is what was judged, by corner or by side', () => {
    expect(ids(keyOn(`{${lowLeftRear}, supply: 11.00 V, reference: 5.00 V}`))).toEqual([
      ['prior', ''],
      ['corners', 'LR'],
      ['supply', 'low'],
      ['reference', 'within'],
    ]);
  });

  it('several corners are one value, and all good ones another', () => {
    const two = signals({ LF: '0.50 V', RR: '4.60 V' });
    expect(ids(keyOn(`{${two}}`))).toContainEqual(['corners', 'several']);
    expect(ids(keyOn(`{${signals()}, supply: 11.00 V}`))).toContainEqual(['corners', 'none']);
  });

  it('is a code only where no reading was judged', () => {
    const codes = '    codes: [{code: C1A21, status: stored, means: supply-range}]\n';
    const group = (readings: string) =>
      rank(keyOn(readings, codes)).suspects[0]?.ledger.find((line) => line.group === 'supply');
    expect(group(`{${lowLeftRear}, supply: 12.50 V}`)).toMatchObject({
      observed: 'within',
      from: ['bench/supply:supply@as-found'],
    });
    // Which way the code does not say.
    const byCode = group(`{${lowLeftRear}}`);
    expect(byCode?.from).toEqual(['bench/codes:C1A21@as-found']);
    const ranking = rank(keyOn(`{${lowLeftRear}}`, codes));
    const battery = ranking.suspects.find(({ id }) => id === 'battery');
    const line = battery?.ledger.find((one) => one.group === 'supply');
    // P(low) + P(high) of a battery: 0.85 and 0.02, with slips: 0.98 · 0.87 + 0.02 · 2/3.
    expect(line?.likelihood).toBeCloseTo(0.98 * 0.87 + (0.02 * 2) / 3, 12);
  });

  it('a list without such codes says nothing in the place of a reading', () => {
    const without = rank(keyOn(`{${lowLeftRear}}`));
    const empty = rank(keyOn(`{${lowLeftRear}}`, '    codes: []\n'));
    expect(empty).toEqual(without);
  });

  it('a reading too close to call counts by the chance that it is inside', () => {
    // 11.50 V with the usual instrument of 0.05 V: as likely inside as out.
    const ranking = rank(keyOn(`{${lowLeftRear}, supply: 11.50 V}`));
    const line = ranking.suspects
      .find(({ id }) => id === 'battery')
      ?.ledger.find((one) => one.group === 'supply');
    const within = 0.13;
    expect(line?.likelihood).toBeCloseTo(0.98 * (0.5 * within + 0.5 * 0.85) + (0.02 * 1) / 3, 9);
  });

  it('at an untaken corner a suspect shows nothing', () => {
    const ranking = rank(keyOn('{position: {LF: 2.50 V, RF: 2.50 V, LR: 2.50 V}, supply: 11.00 V}'));
    const likelihood = (id: string): number | undefined =>
      ranking.suspects.find((one) => one.id === id)?.ledger.find(({ group }) => group === 'corners')
        ?.likelihood;
    expect(likelihood('sensor.RR')).toBeGreaterThan(0.9);
    expect(likelihood('sensor.LR')).toBeLessThan(0.2);
  });

  it('one corner alone stands for several that may be off as well', () => {
    const ranking = rank(keyOn('{position: {LR: 0.50 V}}'));
    const module = ranking.suspects.find((one) => one.id === 'control-module');
    const line = module?.ledger.find(({ group }) => group === 'corners');
    // `several` 0.35 and this corner 0.02; by chance two of six values.
    expect(line?.likelihood).toBeCloseTo(0.98 * 0.37 + (0.02 * 2) / 6, 9);
  });
});

describe('what is no evidence', () => {
  const base = rank(keyOn(`{${lowLeftRear}}`));

  it('a reading that was not taken changes nothing at all', () => {
    expect(rank(keyOn(`{${lowLeftRear}, supply: {why: display dark}}`))).toEqual(base);
  });

  it('a stale reading changes nothing at all', () => {
    const readings = `{${lowLeftRear}}`;
    const later = `  - {id: later, at: 2026-03-02T12:00, state: key-on, readings: ${readings}}\n`;
    const worked = `log: [{at: 2026-03-02T10:00, did: replaced, what: battery}]\n`;
    const plain = rank(`${keyOn(readings)}${later}${worked}`);
    const stale = rank(`${keyOn(`{${lowLeftRear}, supply: 11.00 V}`)}${later}${worked}`);
    expect(stale).toEqual(plain);
    const unworked = rank(`${keyOn(`{${lowLeftRear}, supply: 11.00 V}`)}${later}`);
    expect(probabilityOf(unworked, 'battery')).toBeGreaterThan(2 * probabilityOf(plain, 'battery'));
  });

  it('a waived finding changes nothing at all', () => {
    const waiver = 'waivers: [{finding: bench/supply, reason: known, by: lead, until: 2026-03-09}]\n';
    expect(rank(`${keyOn(`{${lowLeftRear}, supply: 11.00 V}`)}${waiver}`)).toEqual(base);
  });

  it('a superseded reading changes nothing at all', () => {
    const first = `  - {id: first, at: 2026-03-02T08:00, state: key-on, readings: {supply: 11.00 V}}\n`;
    const job = keyOn(`{${lowLeftRear}, supply: 12.50 V}`);
    expect(rank(job.replace('snapshots:\n', `snapshots:\n${first}`))).toEqual(rank(job));
  });

  it('copies inside a group change nothing', () => {
    const code = (text: string) => `{code: ${text}, status: stored, means: signal-range}`;
    const job = (codes: readonly string[]) =>
      keyOn('{supply: 12.50 V}', `    codes: [${codes.map(code).join(', ')}]\n`);
    const probabilities = (codes: readonly string[]) =>
      rank(job(codes)).suspects.map(({ id, probability }) => [id, probability]);
    expect(probabilities(['C1A21', 'C1A22', 'C1A23', 'C1A24'])).toEqual(probabilities(['C1A21']));
  });

  it('the order of findings does not matter', () => {
    const pack = packOf(benchPack);
    const job = jobOf(
      `${keyOn(`{${signals({ LR: '0.50 V', RF: '1.02 V' })}, supply: 11.51 V, reference: 4.50 V}`)}  - {id: run, at: 2026-03-02T09:00, state: running, readings: {${lowLeftRear}, supply: 15.20 V}}\n`,
      [pack],
    );
    const { findings, ranking } = assess(job, preparePacks([pack]), instant(evening));
    expect(ranking).not.toBeNull();
    const shuffled = [...findings].reverse();
    const turned = [...findings.slice(5), ...findings.slice(0, 5)];
    expect(ranked(job, pack, shuffled)).toEqual(ranking);
    expect(ranked(job, pack, turned)).toEqual(ranking);
  });

  it('nothing is ranked where nothing is out, nor where no pack has suspects', () => {
    expect(judge(benchPack, keyOn(`{${signals()}, supply: 12.50 V}`)).ranking).toBeNull();
    // Too close is not out.
    expect(judge(benchPack, keyOn(`{${signals()}, supply: 11.50 V}`)).ranking).toBeNull();
    const checks = benchPack.slice(0, benchPack.indexOf('suspects-basis'));
    expect(judge(checks, keyOn(`{${lowLeftRear}}`)).ranking).toBeNull();
  });

  it('what is out and rests in no group ranks nothing', () => {
    expect(judge(benchPack, keyOn(`{${signals()}, battery: 11.00 V}`)).ranking).toBeNull();
  });
});

describe('levelling', () => {
  const evidence = `{${signals()}, supply: 11.00 V}`;
  const active = keyOn(evidence).replace('    readings', '    conditions: {levelling: active}\n    readings');

  it('that is active takes the word from a signal at its target', () => {
    const [still, moved] = [rank(keyOn(evidence)), rank(active)];
    const ratio = (of: typeof still): number => probabilityOf(of, 'sensor.LR') / probabilityOf(of, 'battery');
    expect(ratio(moved)).toBeGreaterThan(3 * ratio(still));
  });

  it('that is active leaves a signal off its target as telling as it was', () => {
    const off = keyOn(`{${lowLeftRear}}`);
    const offActive = off.replace('    readings', '    conditions: {levelling: active}\n    readings');
    const ratio = (of: ReturnType<typeof rank>): number =>
      probabilityOf(of, 'sensor.LR') / probabilityOf(of, 'control-module');
    expect(ratio(rank(offActive))).toBeCloseTo(ratio(rank(off)), 12);
  });

  it('speaks only where every reading was taken so', () => {
    const running = `  - {id: run, at: 2026-03-02T09:00, state: running, readings: {${signals()}}}\n`;
    const plain = rankingOf(judge(benchPack, `${keyOn(evidence)}${running}`));
    const mixed = rankingOf(judge(benchPack, `${active}${running}`));
    expect(mixed.suspects.map(({ probability }) => probability)).toEqual(
      plain.suspects.map(({ probability }) => probability),
    );
  });
});
