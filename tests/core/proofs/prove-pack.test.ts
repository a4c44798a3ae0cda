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

  const asking = `steps:
  - {id: wash, title: Wash, minutes: 1, when: {not: {moved: reference, over: 0.1}}, undone-if: {finding: bench/suply}, cautions-for: [{components: [battery, batery, pump], cautions: [mind]}]}
cautions: [{id: mind, text: mind your head}]
always: [supply, lamp, codes, suply]
rechecks: [bench/supply, bench/suply]
dangers: [{of: bench/supply}, {of: on-stops}, {of: bench/suply, forbids: [charge]}]
act-uses: [{act: crank, tests: [pinns], steps: [wash, wahs, bench/wash]}]
asks:
  - {id: again, title: Again, again: [suply], in: key-on, when: {finding: bench/suply}}
  - {id: first, title: First, read: [supply, position], in: key-on, when: {not: {conditions: {floor: level}, where-read: [hieght]}}}
hold-points: [{id: road, title: Road, clear-when: {no-finding: {packs: [bench, bnech]}}}]
suspects-basis: {kind: from-memory}
evidence: [{id: low, title: Low, sources: [{finding: bench/supply}], follows: [low, lwo]}]
suspects: [{id: battery, title: battery, prior: 1, raised-by: [battery, batery, harness], wrong-part: {amount: 1, minutes: 1}, expects: [{group: low, shows: low, how: often}]}]
tests: [{id: pins, title: Pins, minutes: 1, depends: [batery], outcomes: [{id: a, title: a, how: {battery: often, others: often}}, {id: b, title: b, how: {battery: sometimes, others: sometimes}}]}]
`;

  it('asks for no such name in what holds and forbids, and in its suspects', () => {
    const names = gapsOf(`${asking}${supplyCheck(limit)}`, pinned).flatMap((gap) =>
      gap.kind === 'unknown-name' ? [`${gap.path.join('/')} ${gap.by}: ${gap.what} ${gap.name}`] : [],
    );
    expect(names).toEqual([
      'steps/0 step wash: channel reference',
      'steps/0 step wash: check bench/suply',
      'steps/0 step wash: component batery',
      'steps/0 step wash: component pump',
      'hold-points/0 hold point road: pack bnech',
      'always the list always: channel suply',
      'rechecks the list rechecks: check bench/suply',
      'dangers/2 a danger: check bench/suply',
      'act-uses/0 act crank: test pinns',
      'act-uses/0 act crank: step wahs',
      'act-uses/0 act crank: step bench/wash',
      'asks/0 ask again: channel suply',
      'asks/0 ask again: check bench/suply',
      'asks/1 ask first: channel position',
      'asks/1 ask first: channel hieght',
      'evidence/0 evidence low: group of evidence lwo',
      'suspects/0 suspect battery: component batery',
      'tests/0 test pins: component batery',
    ]);
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

  it('names each of its cautions somewhere', () => {
    const cautions = ['lone', 'read', 'fit', 'part', 'road', 'test', 'stops', 'volts'];
    const using = `cautions: [${cautions.map((id) => `{id: ${id}, text: mind the ${id}}`).join(', ')}]
steps: [{id: fit, title: Fit, minutes: 1, cautions: [fit], cautions-for: [{components: [battery], cautions: [part]}]}]
hold-points: [{id: road, title: Road, clear-when: {all: []}, cautions: [road]}]
tests: [{id: pins, title: Pins, minutes: 1, cautions: [test], outcomes: [{id: a, title: a}, {id: b, title: b}]}]
dangers: [{of: on-stops, cautions: [stops]}]
${oneChannel.replace('by: module', 'by: module, cautions: [read]')}${supplyCheck(limit).replace('id: supply,', 'id: supply, danger: {cautions: [volts]},')}`;
    const { pack, proofs } = provedPack(using, pinned);
    expect(provePack(pack, proofs, []).gaps.filter(({ kind }) => kind === 'caution-not-used')).toEqual([
      { kind: 'caution-not-used', path: ['cautions', 0], caution: 'lone' },
    ]);
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
