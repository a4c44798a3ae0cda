import { describe, expect, it } from 'vitest';
import type { Finding } from '../../../../src/core/finding.ts';
import type { Symptom } from '../../../../src/core/job.ts';
import { groupInstances } from '../../../../src/core/suspects/evidence/group-instances.ts';
import { likeliestValue, observe, speakingOf } from '../../../../src/core/suspects/evidence/observe.ts';
import { type SpaceName, spaces } from '../../../../src/core/suspects/evidence/spaces.ts';
import { wordWeights } from '../../../../src/core/suspects/evidence/word-weights.ts';
import type { EvidenceGroup, Source } from '../../../../src/core/suspects/model.ts';
import { findingOf, judge, keyOn } from '../../../support/judge.ts';
import { benchPack, signals } from '../bench-pack.ts';

const plain: Finding = findingOf(judge(benchPack, keyOn(`{${signals()}}`)), 'signal', 'LF');

/** A finding of the reference on a subject, with its chances of being low and high. */
const read = (subject: string, low: number, high = 0, more: Partial<Finding> = {}): Finding => ({
  ...plain,
  id: `bench/reference:${subject}`,
  check: 'bench/reference',
  subject,
  verdict: low + high > 0.5 ? 'out' : 'within',
  outside: { low, high },
  ...more,
});

const reference: Source = { kind: 'finding', check: 'bench/reference', subject: null, states: [] };

const groupOf = (space: SpaceName, sources: readonly Source[], more: Partial<EvidenceGroup> = {}) => ({
  id: 'g',
  base: 'g',
  per: 'vehicle' as const,
  place: null,
  title: 'Group',
  space,
  values: spaces[space],
  sources,
  levelled: false,
  refines: false,
  follows: [],
  byChance: null,
  ...more,
});

const axlesOf = (...findings: readonly Finding[]) => {
  const seen = observe(groupOf('axles', [reference]), speakingOf(findings));
  return seen && Object.fromEntries(seen.weights);
};

describe('axles', () => {
  it('where only the front was read and is low, both low stays as open as the front alone', () => {
    const seen = axlesOf(read('LF', 1));
    expect(seen).toMatchObject({ low: 1, 'low-front': 1, within: 0, 'low-rear': 0, high: 0 });
  });

  it('where only the front was read and is good, the rear stays open', () => {
    const seen = axlesOf(read('LF', 0));
    expect(seen).toMatchObject({ within: 1, 'low-rear': 1, 'high-rear': 1, low: 0, 'low-front': 0 });
  });

  it('where both were read tell which is low', () => {
    expect(axlesOf(read('LF', 1), read('LR', 0))).toMatchObject({ 'low-front': 1, low: 0, 'low-rear': 0 });
    expect(axlesOf(read('LF', 0), read('RR', 0, 1))).toMatchObject({ 'high-rear': 1, high: 0 });
    expect(axlesOf(read('LF', 1), read('LR', 1))).toMatchObject({ low: 1, 'low-front': 0, 'low-rear': 0 });
    expect(axlesOf(read('LF', 0), read('LR', 0))).toMatchObject({ within: 1, low: 0, high: 0 });
  });

  it('are as low as their worst corner', () => {
    expect(axlesOf(read('LF', 0), read('RF', 0.9), read('LR', 0))).toMatchObject({
      'low-front': 0.9,
      within: expect.closeTo(0.1, 12),
    });
  });

  it('that were read as an axle count as their corners do', () => {
    expect(axlesOf(read('front', 1), read('rear', 0))).toEqual(axlesOf(read('LF', 1), read('LR', 0)));
    expect(axlesOf(read('sensor-ground-drop.front', 1))).toEqual(axlesOf(read('front', 1)));
  });

  it('stay open where a reading of the whole vehicle names none', () => {
    expect(axlesOf(read('reference', 0.75))).toEqual({
      within: 0.25,
      low: 0.75,
      'low-front': 0.75,
      'low-rear': 0.75,
      high: 0,
      'high-front': 0,
      'high-rear': 0,
    });
  });

  it('rest on what is out, and on the corners that were read', () => {
    const seen = observe(groupOf('axles', [reference]), speakingOf([read('LF', 1), read('LR', 0)]));
    expect(seen?.from.map(({ subject }) => subject)).toEqual(['LF']);
    expect(seen?.taken).toEqual(['LF', 'LR']);
    expect(seen && likeliestValue(seen)).toBe('low-front');
  });
});

describe('a group at each axle or corner', () => {
  const instances = groupInstances(
    [groupOf('sides', [reference], { per: 'axle' })],
    ['LF', 'RF', 'LR', 'RR'],
  );
  const shown = (findings: readonly Finding[]) =>
    instances.map((group) => {
      const seen = observe(group, speakingOf(findings));
      return [group.id, seen && likeliestValue(seen)];
    });

  it('reads its own place alone', () => {
    expect(shown([read('front', 0), read('rear', 1)])).toEqual([
      ['g.front', 'within'],
      ['g.rear', 'low'],
    ]);
  });

  it('was not observed where its place was not read', () => {
    expect(shown([read('RR', 0, 1)])).toEqual([
      ['g.front', null],
      ['g.rear', 'high'],
    ]);
  });

  it('has a reading of the whole vehicle speak for each', () => {
    expect(shown([read('reference', 1)])).toEqual([
      ['g.front', 'low'],
      ['g.rear', 'low'],
    ]);
  });
});

describe('the words of a check', () => {
  const words = ['alike', 'signal-alone', 'tape-alone', 'opposed'];
  const group = groupOf('out', [reference], { space: 'words', values: words });
  const said = { alike: 0.1, 'signal-alone': 0.7, 'tape-alone': 0.15, opposed: 0.05 };

  it('count each with its own chance', () => {
    const finding = read('front', 0, 0, { verdict: 'out', patternWeights: said });
    expect(Object.fromEntries(wordWeights(finding) ?? [])).toEqual(said);
    const seen = observe(group, speakingOf([finding]));
    expect(Object.fromEntries(seen?.weights ?? [])).toEqual(said);
    expect(seen && likeliestValue(seen)).toBe('signal-alone');
  });

  it('are none of a check that has no words', () => {
    expect(wordWeights(plain)).toBeNull();
    expect(observe(group, speakingOf([read('front', 1, 0, { patternWeights: null })]))).toBeNull();
  });
});

const silent: Symptom = {
  where: null,
  sits: null,
  when: null,
  moves: null,
  rides: null,
  noise: null,
  checked: null,
};
const says = (...all: readonly Partial<Symptom>[]): readonly Symptom[] =>
  all.map((one) => ({ ...silent, ...one }));

describe('what the driver says', () => {
  const low: Source = { kind: 'symptom', part: 'sits', is: ['low'] };
  const of = (group: EvidenceGroup, symptoms: readonly Symptom[]) => {
    const seen = observe(group, speakingOf([], symptoms));
    return seen && likeliestValue(seen);
  };

  it('is out where the word is said, within where another is, and no evidence where nothing is', () => {
    const group = groupOf('out', [low]);
    expect(of(group, says({ sits: 'low' }))).toBe('out');
    expect(of(group, says({ sits: 'high' }))).toBe('within');
    expect(of(group, says({ noise: 'hiss' }))).toBeNull();
    expect(of(group, [])).toBeNull();
  });

  it('is out by any of several parts, whichever comes first', () => {
    const group = groupOf('out', [low, { kind: 'symptom', part: 'noise', is: ['hiss'] }]);
    expect(of(group, says({ sits: 'high', noise: 'hiss' }))).toBe('out');
    expect(of(group, says({ sits: 'high', noise: 'knock' }))).toBe('within');
  });

  it('is of the corner that is named, and of several where more are', () => {
    const group = groupOf('corners', [{ kind: 'symptom-corners', words: { sits: ['low'] } }]);
    expect(of(group, says({ where: 'LR', sits: 'low' }))).toBe('LR');
    expect(of(group, says({ where: 'rear', sits: 'low' }))).toBe('several');
    expect(of(group, says({ where: 'LR', sits: 'low' }, { where: 'RF', sits: 'low' }))).toBe('several');
    expect(of(group, says({ where: 'LR', sits: 'high' }))).toBeNull();
    expect(of(group, says({ sits: 'low' }))).toBeNull();
  });

  it('wants every part that the source names', () => {
    const words = { sits: ['low'], when: ['after-standing'] };
    const group = groupOf('corners', [{ kind: 'symptom-corners', words }]);
    expect(of(group, says({ where: 'LR', sits: 'low' }))).toBeNull();
    expect(of(group, says({ where: 'LR', sits: 'low', when: 'after-standing' }))).toBe('LR');
  });
});

describe('the corners that codes name', () => {
  const codes = (list: string): readonly Finding[] =>
    judge(benchPack, keyOn(`{${signals()}}`, `    codes: [${list}]\n`)).findings;
  const shown = (list: string, sources: readonly Source[], space: SpaceName) => {
    const seen = observe(groupOf(space, sources), speakingOf(codes(list)));
    return seen && likeliestValue(seen);
  };
  const corners: readonly Source[] = [{ kind: 'code-corners', means: ['signal-range'] }];

  it('are where a code of the meaning says, and several where codes name more', () => {
    const one = '{code: C3A21, status: stored, means: signal-range, at: LR}';
    expect(shown(one, corners, 'corners')).toBe('LR');
    const two = '{code: C3A22, status: stored, means: signal-range, at: RF}';
    expect(shown(`${one}, ${two}`, corners, 'corners')).toBe('several');
    expect(shown('{code: C3A21, status: stored, means: signal-range, at: rear}', corners, 'corners')).toBe(
      'several',
    );
  });

  it('are none of another meaning, or of a code that names no corner', () => {
    expect(
      shown('{code: C3A21, status: stored, means: supply-range, at: LR}', corners, 'corners'),
    ).toBeNull();
    expect(shown('{code: C3A21, status: stored, means: signal-range}', corners, 'corners')).toBeNull();
  });

  it('may be of one circuit of the air system', () => {
    const tank: readonly Source[] = [{ kind: 'codes', means: ['pressure'], at: ['tank'] }];
    expect(shown('{code: C3A31, status: stored, means: pressure, at: tank}', tank, 'out')).toBe('out');
    expect(shown('{code: C3A31, status: stored, means: pressure, at: supply}', tank, 'out')).toBe('within');
    expect(shown('{code: C3A31, status: stored, means: pressure}', tank, 'out')).toBe('within');
  });
});
