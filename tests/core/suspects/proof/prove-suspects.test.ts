import { describe, expect, it } from 'vitest';
import type { Pack } from '../../../../src/core/pack.ts';
import { chancesUnder, groupRow, groupTable } from '../../../../src/core/suspects/evidence/group-row.ts';
import { hypothesesOf, usualShare } from '../../../../src/core/suspects/hypotheses.ts';
import { posterior } from '../../../../src/core/suspects/posterior.ts';
import type { Costly } from '../../../../src/core/suspects/proof/costly.ts';
import { hasFailed, proveSuspects } from '../../../../src/core/suspects/proof/prove-suspects.ts';
import { jobOf, keyOn, packOf } from '../../../support/judge.ts';
import { benchPack, rank } from '../bench-pack.ts';
import { proofPack, suspect } from './proof-pack.ts';

const rate = 60;
const low = 'expects: [{group: supply, shows: low, how: usually}]';
const elsewhere = 'expects: [{group: reference, shows: low, how: usually}]';
const dear = 900;

const prove = (pack: Pack) => {
  const proof = proveSuspects(pack, rate);
  if (!proof?.costly) throw new Error('the pack has no suspects, or no cost of escalating');
  return { failed: hasFailed(proof), costly: proof.costly };
};
const on = (all: readonly Costly[], id: string, layout = 'four-corner-air'): Costly => {
  const found = all.find((one) => one.suspect.id === id && one.layout === layout);
  if (!found) throw new Error(`${id} is not costly`);
  return found;
};

const splitting = (how: string, more = ''): string =>
  `{id: try, title: Try, minutes: 6, ${more}outcomes: [{id: yes, title: it is, how: {module: ${how}, others: rarely}}, {id: no, title: it is not, how: {module: rarely, others: ${how}}}]}`;

describe('a costly part', () => {
  const same = [suspect('module', low, dear), suspect('wire', low)];

  it('fails where all that the pack has cannot bring it over its threshold, and says who stands beside it', () => {
    const { failed, costly } = prove(proofPack(same));
    expect(failed).toBe(true);
    const module = on(costly, 'module');
    // W = 900 + 10 min at 60 an hour, E = 300.
    expect(module.threshold).toBeCloseTo(910 / 1210, 12);
    expect(module).toMatchObject({ verdict: 'short', rival: { id: 'wire' } });
    expect(module.best).toBeLessThanOrEqual(0.5);
    expect(on(costly, 'module', 'rear-air-assist').verdict).toBe('short');
  });

  it('passes once a test tells it from the other', () => {
    const { failed, costly } = prove(proofPack(same, [splitting('always')]));
    expect(failed).toBe(false);
    expect(on(costly, 'module')).toMatchObject({
      verdict: 'over',
      by: ['supply shows low', 'try finds yes'],
    });
  });

  it('fails still where the test tells too little, or is the same evidence as a reading', () => {
    expect(prove(proofPack(same, [splitting('0.3')])).failed).toBe(true);
    const alone = [
      suspect('module', low, 1500),
      suspect('wire', 'expects: [{group: supply, shows: low, how: often}]'),
    ];
    const twice =
      '{id: again, title: Again, minutes: 6, outcomes: [{id: low, title: it is low, how: {module: usually, others: rarely}}, {id: right, title: it is right, how: {module: rarely, others: usually}}]}';
    expect(prove(proofPack(alone, [twice])).failed).toBe(false);
    expect(prove(proofPack(alone, [twice.replace('minutes: 6', 'minutes: 6, group: supply')])).failed).toBe(
      true,
    );
  });

  it('is one whose threshold is above its prior', () => {
    const ids = prove(proofPack([suspect('module', low, dear), suspect('bolt', low, 0)])).costly.map(
      (one) => one.suspect.id,
    );
    expect(ids).toContain('module');
    expect(ids).not.toContain('bolt');
  });

  it('hangs on what an hour costs', () => {
    const pack = proofPack([suspect('module', low, 300), suspect('bolt', elsewhere, 0)]);
    const thresholds = (hour: number) => proveSuspects(pack, hour)?.costly?.map(({ threshold }) => threshold);
    expect(thresholds(6)).toEqual(Array(3).fill(301 / 601));
    expect(thresholds(60)).toEqual(Array(3).fill(310 / 610));
  });

  it('comes no further than Bayes over every way in which the readings can turn out', () => {
    const pack = proofPack([suspect('module', low, 1e6), suspect('wire', low), suspect('far', elsewhere)]);
    const hypotheses = hypothesesOf(
      pack.suspects,
      { layout: 'four-corner-air', fitted: ['LF', 'RF', 'LR', 'RR'] },
      0.07,
    );
    const ways = pack.evidence.reduce<(readonly (readonly number[])[])[]>(
      (sofar, group) => {
        const rows = [hypotheses.map(() => 1), ...groupTable(group, chancesUnder(group, hypotheses))];
        return sofar.flatMap((way) => rows.map((row) => [...way, row]));
      },
      [[]],
    );
    const priors = hypotheses.map(({ prior }) => prior);
    const most = Math.max(...ways.map((way) => posterior(priors, way)[0] ?? 0));
    const { verdict, best } = on(prove(pack).costly, 'module');
    expect(verdict).toBe('short');
    expect(best).toBeCloseTo(most, 9);
  });
});

describe('what must confirm it', () => {
  const far = suspect('far', elsewhere);
  const confirmed = suspect('module', `${low}, confirm: [{test: try, found: yes}]`, dear);

  it('can be had where its test serves the layout', () => {
    expect(prove(proofPack([confirmed, far], [splitting('usually')])).failed).toBe(false);
  });

  it('fails on a layout that has no such test', () => {
    const { failed, costly } = prove(
      proofPack([confirmed, far], [splitting('usually', 'layouts: [four-corner-air], ')]),
    );
    expect(failed).toBe(true);
    expect(on(costly, 'module').unconfirmable).toEqual([]);
    expect(on(costly, 'module', 'rear-air-assist').unconfirmable).toMatchObject([{ test: 'try' }]);
  });

  it('fails where its test waits for itself', () => {
    const waiting = splitting('usually', 'after: [{test: try, found: no}], ');
    expect(on(prove(proofPack([confirmed, far], [waiting])).costly, 'module').unconfirmable).toHaveLength(1);
  });

  it('is torn where parts of it rule each other out, and does not fail for that', () => {
    const torn = suspect(
      'module',
      `${low}, confirm: [{test: try, found: yes}, {group: reference, shows: within}]`,
      dear,
    );
    const after = splitting('usually', 'after: [{group: reference, shows: low}], ');
    const { failed, costly } = prove(proofPack([torn, far], [after]));
    expect(on(costly, 'module').torn).toBe('excluded');
    expect(failed).toBe(false);
  });

  it('is torn where all of it together speaks against the part', () => {
    const against = suspect('module', `${low}, confirm: [{test: try, found: no}]`, 6000);
    const { costly } = prove(proofPack([against, far], [splitting('always')]));
    expect(on(costly, 'module').torn).toBe('outweighed');
  });
});

describe('a pack', () => {
  it('without suspects has nothing to prove of them', () => {
    expect(proveSuspects(packOf('steps: [{id: look, title: Look, minutes: 1}]'), rate)).toBeNull();
  });

  it('that does not say what escalating costs has no thresholds', () => {
    const proof = proveSuspects(proofPack([suspect('module', low)], [], ''), rate);
    expect(proof?.costly).toBeNull();
    expect(proof && hasFailed(proof)).toBe(false);
  });

  it('of the other tests holds', () => {
    expect(prove(packOf(benchPack)).failed).toBe(false);
  });
});

describe('what a group can show', () => {
  it('has the rows that a job gets for readings beyond doubt', () => {
    const pack = packOf(benchPack);
    const job = jobOf(keyOn('{supply: 12.00 V}'), [pack]);
    const hypotheses = hypothesesOf(pack.suspects, job.vehicle, 0.07);
    for (const group of pack.evidence.map((one) => ({ ...one, levelled: false }))) {
      const chances = chancesUnder(group, hypotheses);
      const rows = group.values.map((value) => groupRow(group, new Map([[value, 1]]), false, chances));
      expect(groupTable(group, chances)).toEqual(rows);
    }
  });

  it('counts something else with the share that a ranking gives it where a pack says none', () => {
    const silent = benchPack.replace('something-else: {share: 0.07}\n', '');
    const ranking = rank(keyOn('{supply: 10.00 V}'), silent);
    const pack = packOf(silent);
    const hypotheses = hypothesesOf(
      pack.suspects,
      { layout: 'four-corner-air', fitted: ['LF', 'RF', 'LR', 'RR'] },
      usualShare,
    );
    const group = pack.evidence.find(({ id }) => id === 'supply');
    const row = group ? groupTable(group, chancesUnder(group, hypotheses))[1] : undefined;
    const p = posterior(
      hypotheses.map(({ prior }) => prior),
      row ? [row] : [],
    );
    const other = ranking.suspects.find(({ id }) => id === 'something-else');
    expect(other?.probability).toBeCloseTo(p.at(-1) ?? 0, 12);
  });
});
