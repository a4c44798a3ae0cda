import { describe, expect, it } from 'vitest';
import { conflictOf } from '../../../src/core/suspects/conflict.ts';
import type { Hypothesis } from '../../../src/core/suspects/hypotheses.ts';
import type { Suspect } from '../../../src/core/suspects/model.ts';
import type { EvidenceRow } from '../../../src/core/suspects/weigh.ts';

const one = (id: string): Hypothesis => {
  const suspect: Suspect = {
    id,
    per: 'vehicle',
    title: id,
    layouts: null,
    prior: 1,
    raisedBy: [],
    raise: 5,
    wrongPart: { amount: 0, minutes: 0 },
    confirm: [],
    component: id,
    isPart: true,
    isCoded: false,
    repaired: true,
    inspect: { minutes: 3, sees: 0.35 },
    modes: [],
    expects: [],
  };
  return { id, title: id, place: null, suspect, prior: 0.4 };
};
const hypotheses = [one('battery'), one('sensor'), { ...one('something-else'), suspect: null, prior: 0.2 }];

const row = (id: string, likelihoods: readonly number[], quiet = false): EvidenceRow => ({
  id,
  title: id,
  from: [`finding ${id}`],
  observed: '',
  quiet,
  row: likelihoods,
});

const supply = row('supply', [0.9, 0.03, 0.3]);
const corner = row('corner', [0.03, 0.9, 0.3]);
const good = row('a-good-one', [0.03, 0.9, 0.5], true);

describe('what no one suspect explains', () => {
  it('is the smallest set of which each suspect leaves something unexplained', () => {
    expect(conflictOf(hypotheses, [supply, corner])).toEqual(['finding corner', 'finding supply']);
    expect(conflictOf(hypotheses, [supply])).toEqual([]);
  });

  it('is of what is out before what is good', () => {
    expect(conflictOf(hypotheses, [good, supply, corner])).toEqual(['finding corner', 'finding supply']);
    expect(conflictOf(hypotheses, [good, supply])).toEqual(['finding a-good-one', 'finding supply']);
  });

  it('is nothing where something expected least by all is expected most by one that explains the rest', () => {
    expect(conflictOf(hypotheses, [supply, row('odd', [0.02, 0.02, 0.5])])).toEqual([]);
  });

  it('asks nothing of something else, which explains a little of everything', () => {
    const spread = [row('supply', [0.9, 0.03, 0.9]), row('corner', [0.03, 0.9, 0.9])];
    expect(conflictOf(hypotheses, spread)).toHaveLength(2);
  });
});
