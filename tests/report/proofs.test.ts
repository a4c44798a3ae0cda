import { describe, expect, it } from 'vitest';
import { runProof } from '../../src/core/proofs/prove.ts';
import { failedOf, type Proved, proofReport } from '../../src/report/proofs.ts';
import { makeStyle } from '../../src/report/style.ts';
import { provedPack, supplyCheck, supplyProof } from '../core/proofs/bench-pack.ts';

const style = makeStyle({
  width: 80,
  colour: 0,
  ascii: true,
  all: false,
  pressureUnit: null,
  temperatureUnit: null,
});

const { proofs } = provedPack(
  supplyCheck('{weight: look, at-least: 11.8 V}'),
  supplyProof('11.000 V', 'within') + supplyProof('11.900 V', 'within'),
);
const proved = (more: Partial<Proved>): Proved => ({
  name: 'bench 1.0.0',
  file: 'bench/1.0.0.yaml',
  results: proofs.map(runProof),
  excused: [],
  moved: null,
  gaps: [],
  suspects: null,
  problems: [],
  ...more,
});
const report = (more: Partial<Proved>): string =>
  proofReport([proved(more)], { fromShop: false, currency: null }, style);
const [wrong] = proofs;

describe('the report of proofs', () => {
  it('names each that does not hold, with what was found', () => {
    expect(report({ moved: 0 })).toBe(
      `bench 1.0.0: 1 proofs hold, 1 do not\n  line ${wrong?.line}: bench/supply supply should be within, and is out look\n`,
    );
  });

  it('counts apart those of an earlier version that need no longer hold', () => {
    const excused = [wrong?.line ?? 0];
    expect(report({ excused })).toBe(
      'bench 1.0.0: 1 proofs hold, 0 do not; 1 of an earlier judgement\nOf earlier versions only the proofs are run: they were released before limits\nhad to be pinned.\n',
    );
    expect(failedOf(proved({ excused }))).toEqual([]);
    expect(failedOf(proved({ excused: [1] }))).toHaveLength(1);
  });

  it('says how many limits were moved, and below it where which proof is missing', () => {
    expect(
      report({
        results: [],
        moved: 1,
        gaps: [{ gap: { kind: 'step-not-shown', path: [], step: 'chock' }, line: 7, meant: null }],
      }),
    ).toBe(
      `bench 1.0.0: 0 proofs hold, 0 do not; 1 limit, all pinned
  FAILS: no proof makes the step chock needed
      bench/1.0.0.yaml:7: add a proof whose job makes it needed, expecting
        steps: {chock: ready}, or waiting
`,
    );
  });
});
