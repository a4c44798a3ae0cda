import { describe, expect, it } from 'vitest';
import type { Gap } from '../../../src/core/proofs/gaps.ts';
import { placeGaps } from '../../../src/input/pack/gap-places.ts';
import { readYaml } from '../../../src/input/yaml/read-yaml.ts';

const text = `pack: bench
checks:
  - id: rails
    tiers:
      - {weight: hold, between: [0.25 V, 4.75 V]}
steps:
  - id: learn
    after:
      - configure
      - progam
always: [supply, lampp]
act-uses:
  - {act: crank, tests: [pins]}
  - act: drive
    tests: [pins]
    steps: [raod]
`;

const placed = (gaps: readonly Gap[]) => {
  const { root } = readYaml(text);
  if (!root) throw new Error('the text reads');
  return placeGaps(text, root, gaps).map(({ line, meant, gap }) => [gap.kind, line, meant]);
};

describe('the place of a gap', () => {
  it('is the line of what it is about, in the order of the text', () => {
    expect(
      placed([
        { kind: 'step-not-shown', path: ['steps', 0], step: 'learn' },
        {
          kind: 'no-unit',
          path: ['checks', 0, 'tiers', 0, 'between', 1],
          check: 'bench/rails',
          text: '4.75',
          unit: 'V',
        },
        { kind: 'nothing-run', path: [] },
      ]),
    ).toEqual([
      ['nothing-run', 1, null],
      ['no-unit', 5, null],
      ['step-not-shown', 7, null],
    ]);
  });

  it('is the line of a name that nothing has, with the nearest that there is', () => {
    const gap = {
      kind: 'unknown-name',
      path: ['steps', 0],
      what: 'step',
      by: 'step learn',
      known: ['program'],
    } as const;
    expect(placed([{ ...gap, name: 'progam' }])).toEqual([['unknown-name', 10, 'program']]);
    expect(placed([{ ...gap, name: 'hidden-in-an-id' }])).toEqual([['unknown-name', 7, null]]);
  });

  it('is found in a list of names, and in an entry that looks like another', () => {
    expect(
      placed([
        {
          kind: 'unknown-name',
          path: ['act-uses', 1],
          what: 'step',
          by: 'act drive',
          known: ['road'],
          name: 'raod',
        },
        {
          kind: 'unknown-name',
          path: ['act-uses', 1],
          what: 'test',
          by: 'act drive',
          known: ['pinned'],
          name: 'pins',
        },
        {
          kind: 'unknown-name',
          path: ['always'],
          what: 'channel',
          by: 'the list always',
          known: ['lamps'],
          name: 'lampp',
        },
      ]),
    ).toEqual([
      ['unknown-name', 11, 'lamps'],
      ['unknown-name', 15, null],
      ['unknown-name', 16, 'road'],
    ]);
  });
});
