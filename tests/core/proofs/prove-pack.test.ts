import { describe, expect, it } from 'vitest';
import type { Pack } from '../../../src/core/pack.ts';
import type { Gap } from '../../../src/core/proofs/gaps.ts';
import { proveChecks, provePack } from '../../../src/core/proofs/prove-pack.ts';
import { packOf } from '../../support/judge.ts';
import { provedPack, supplyCheck, supplyProof } from './bench-pack.ts';

const pinned = supplyProof('11.799 V', 'out look') + supplyProof('11.801 V', 'within');
const limit = '{weight: look, at-least: 11.8 V}';
/** Leaves one channel, so that nothing else is open. */
const oneChannel =
  'channels: [{id: supply, title: supply, quantity: voltage, unit: V, by: module, depends: [battery]}]\n';

const gapsOf = (body: string, proofs: string, others: readonly Pack[] = []): readonly Gap[] => {
  const { pack, proofs: read } = provedPack(oneChannel + body, proofs, others);
  return provePack(pack, read, others).gaps;
};

describe('a pack whose proofs show all that it says', () => {
  it('has no gaps', () => {
    expect(gapsOf(supplyCheck(limit), pinned)).toEqual([]);
  });

  it('has a proof for each check, firing and silent', () => {
    expect(gapsOf(supplyCheck(limit), supplyProof('11.801 V', 'within'))).toContainEqual({
      kind: 'not-shown',
      path: ['checks', 0],
      check: 'bench/supply',
      lacks: 'firing',
    });
  });

  it('has one gap a limit and way, at the smallest share that goes unnoticed', () => {
    const far = (reading: string): Gap[] => [
      ...gapsOf(supplyCheck(limit), supplyProof('11.799 V', 'out look') + supplyProof(reading, 'within')),
    ];
    const gap = { kind: 'unnoticed', path: ['checks', 0, 'tiers', 0, 'at-least'], way: 'up' };
    expect(far('12.100 V')).toMatchObject([{ ...gap, share: 0.02, from: '11.8 V', to: '12.036 V' }]);
    expect(far('13.500 V')).toMatchObject([{ ...gap, share: 0.02 }]);
  });

  it('has units', () => {
    const [gap] = gapsOf(supplyCheck('{weight: look, at-least: 11.8}'), pinned);
    expect(gap).toEqual({
      kind: 'no-unit',
      path: ['checks', 0, 'tiers', 0, 'at-least'],
      check: 'bench/supply',
      text: '11.8',
      unit: 'V',
    });
  });

  it('is not asked to pin a limit that is never reported', () => {
    const tiers = '{weight: hold, at-least: 11.8 V}, {weight: look, at-least: 9 V}';
    const proofs = supplyProof('11.799 V', 'out hold') + supplyProof('11.801 V', 'within');
    expect(gapsOf(supplyCheck(tiers), proofs).map(({ kind }) => kind)).toEqual(['never-reported']);
  });

  const steps = `steps:
  - {id: chock, title: Chock, minutes: 1, after: [clear]}
  - {id: clear, title: Clear, minutes: 1, behind: road, when: {all: [{not: {finding: bench/supply}}, {any: [{finding: yard/rails}]}]}}
hold-points:
  - {id: road, title: Road, clear-when: {all: [{step: chock}, {no-finding: {except-checks: [bench/other]}}, {steps: {except: [wash]}}]}}
`;

  it('asks for no step, hold point or check that none of the packs has', () => {
    const names = gapsOf(`${steps}${supplyCheck(limit)}`, pinned).flatMap((gap) =>
      gap.kind === 'unknown-name' ? [`${gap.by}: ${gap.what} ${gap.name}`] : [],
    );
    expect(names).toEqual([
      'step clear: check yard/rails',
      'hold point road: check bench/other',
      'hold point road: step wash',
    ]);
  });

  it('finds the names of the packs that it is proved with, but not of an older version of itself', () => {
    const yard = packOf(
      'pack: yard\nsteps: [{id: wash, title: Wash, minutes: 1}]\nchecks: [{id: rails, kind: range, title: Rails, of: position, in: [key-on], basis: {kind: from-memory}, tiers: [{weight: look, at-least: 1 V}]}]',
    );
    const older = packOf(supplyCheck(limit).replace('id: supply,', 'id: other,'));
    const names = gapsOf(`${steps}${supplyCheck(limit)}`, pinned, [yard, older]).flatMap((gap) =>
      gap.kind === 'unknown-name' ? [gap.name] : [],
    );
    expect(names).toEqual(['bench/other']);
  });

  it('makes each step needed in some proof', () => {
    const chock = 'steps: [{id: chock, title: Chock, minutes: 1}]\n';
    const shown = (state: string): Gap[] =>
      gapsOf(
        `${chock}${supplyCheck(limit)}`,
        `${pinned}  - {given: {state: key-on}, expect: {steps: {chock: ${state}}}}\n`,
      ).filter(({ kind }) => kind === 'step-not-shown');
    expect(shown('not-needed')).toEqual([{ kind: 'step-not-shown', path: ['steps', 0], step: 'chock' }]);
    expect(shown('ready')).toEqual([]);
  });

  it('judges each channel, or says why not', () => {
    const more = oneChannel.replace(
      '}]',
      '}, {id: jump-pack, title: jump pack, quantity: voltage, unit: V, by: meter, depends: [battery]}]',
    );
    const { pack, proofs } = provedPack(more + supplyCheck(limit), pinned);
    expect(provePack(pack, proofs, []).gaps).toEqual([
      { kind: 'channel-not-judged', path: ['channels', 1], channel: 'jump-pack' },
    ]);
    const said = provedPack(
      more.replace('by: meter', 'by: meter, unjudged: no limit is known') + supplyCheck(limit),
      pinned,
    );
    expect(provePack(said.pack, said.proofs, []).gaps).toEqual([]);
  });

  it('runs something', () => {
    const { pack, proofs } = provedPack(
      'hold-points: [{id: road, title: Road, clear-when: {all: []}}]\nchannels: []',
      '',
    );
    expect(provePack(pack, proofs, []).gaps).toEqual([{ kind: 'nothing-run', path: [] }]);
  });
});

describe('a version from before limits had to be pinned', () => {
  it('need only show each check firing and silent', () => {
    const { pack, proofs } = provedPack(
      supplyCheck('{weight: look, at-least: 11.8}'),
      supplyProof('9.0 V', 'out look'),
    );
    expect(proveChecks(pack, proofs)).toEqual({
      gaps: [{ kind: 'not-shown', path: ['checks', 0], check: 'bench/supply', lacks: 'silent' }],
      moved: null,
    });
  });
});
