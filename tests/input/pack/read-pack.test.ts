import { describe, expect, it } from 'vitest';
import { preparePacks } from '../../../src/core/prepare/prepared-packs.ts';
import { openJob } from '../../../src/input/job/read-job.ts';
import { combinedFlaws } from '../../../src/input/pack/combine-packs.ts';
import { readPack } from '../../../src/input/pack/read-pack.ts';
import { readProofs } from '../../../src/input/pack/read-proofs.ts';
import { packOf } from '../../support/judge.ts';
import { packFaults } from '../problems-of.ts';

const soundPack = `pack: frame
version: 1.0.0
title: Frame voltages
minutes-basis: {kind: from-memory}
components:
  - {id: frame, title: frame}
channels:
  - {id: frame-voltage, title: frame voltage, quantity: voltage, unit: V, by: meter, depends: [frame]}
checks:
  - id: quiet
    kind: range
    title: Frame without voltage
    of: frame-voltage
    in: [key-on]
    tiers: [{weight: look, between: [0 V, 0.5 V]}]
    basis: {kind: from-memory}
cautions:
  - {id: body-on-air, text: The body may drop.}
steps:
  - {id: wash, title: Wash the frame, minutes: 5, when: {did: replaced, what: frame}, cautions: [body-on-air]}
  - {id: dry, title: Dry the frame, minutes: 5, after: [wash]}
hold-points:
  - {id: release, title: Release, clear-when: {all: [{step: [wash, dry]}, {no-finding: {weight: hold}}]}}
proofs:
  - given: {readings: {frame-voltage: 0.1 V}}
    expect: {quiet: {frame-voltage: within}}
`;

const faultsWith = (was: string, is: string): string[] => {
  if (!soundPack.includes(was)) throw new Error(`the sound pack does not hold ${was}`);
  return packFaults(soundPack.replace(was, is)).map((fault) => fault.replace(/^\S+ /u, ''));
};

describe('readPack', () => {
  it('finds nothing wrong with the sound pack', () => {
    expect(packFaults(soundPack)).toEqual([]);
  });

  it.each([
    ['version: 1.0.0', 'version: 1.0', ['wrong-type | write a version such as 1.0.0']],
    ['version: 1.0.0', 'version: one', ['wrong-value | write a version such as 1.0.0']],
    ['pack: frame', 'pack: Frame', ['wrong-value | write a name in small letters, such as position-signals']],
    ['unit: V', 'unit: Vv', ['unknown-unit | did you mean V?']],
    ['unit: V', 'unit: psi', ['wrong-unit | it can be V, mV']],
    [
      'quantity: voltage',
      'quantity: volts',
      ['wrong-value | it can be voltage, current, resistance, pressure, temperature, length, ratio, time'],
    ],
    ['depends: [frame]', 'depends: [fram]', ['unknown-name | did you mean frame?']],
    ['kind: range', 'kind: rnage', ['wrong-value | did you mean range?']],
    ['of: frame-voltage', 'of: frame-voltge', ['unknown-channel | did you mean frame-voltage?']],
    ['between: [0 V, 0.5 V]', 'between: [0 V, 0,5 V]', ['decimal-comma | write 0.5 V']],
    ['between: [0 V, 0.5 V]', 'between: [0.5 V, 0 V]', ['wrong-value | write the smaller value first']],
    ['weight: look', 'weight: loook', ['wrong-value | did you mean look?']],
    ['in: [key-on]', 'in: [keyon]', ['wrong-value | did you mean key-on?']],
    ['    basis: {kind: from-memory}\ncautions', 'cautions', ['missing-key | add basis: …']],
    ['minutes-basis: {kind: from-memory}\n', '', ['missing-key | add minutes-basis: {kind: from-memory}']],
    ['cautions: [body-on-air]', 'cautions: [body-on-ari]', ['unknown-name | did you mean body-on-air?']],
    [
      'id: dry',
      'id: wash',
      ['step-cycle | remove one of them from its after: list', 'duplicate-id | give this one its own name'],
    ],
    [
      'minutes: 5, when',
      'minutes: 5, after: [dry], when',
      ['step-cycle | remove one of them from its after: list'],
    ],
    ['did: replaced', 'did: repaced', ['wrong-value | did you mean replaced?']],
    [
      'when: {did: replaced, what: frame}',
      'when: {any: [{fnding: frame/quiet}]}',
      ['unknown-key | did you mean finding?'],
    ],
    [
      'when: {did: replaced, what: frame}',
      'when: {step: dry}',
      ['wrong-value | order steps with after:, and ask for steps only in hold points'],
    ],
    [
      'minutes: 5, when',
      'minutes: 5, answered-if: {not: {step: dry}}, when',
      ['wrong-value | order steps with after:, and ask for steps only in hold points'],
    ],
    [
      'minutes: 5, when',
      'minutes: 5, undone-if: {any: [{taken: rest}, {steps: {except: [dry]}}]}, when',
      ['wrong-value | order steps with after:, and ask for steps only in hold points'],
    ],
    [
      'when: {did: replaced, what: frame}',
      'when: {did: replaced, finding: frame/quiet}',
      ['wrong-value | join them with all: or any:'],
    ],
    [
      'when: {did: replaced, what: frame}',
      'when: {did: replaced, subject: LF}',
      ['unknown-key | join several with all: or any:'],
    ],
    [
      'when: {did: replaced, what: frame}',
      'when: replaced',
      ['wrong-type | write all, any, not, or one fact such as {did: replaced, what: sensor}'],
    ],
    [
      'when: {did: replaced, what: frame}',
      'when: {}',
      ['wrong-value | write a fact such as {did: replaced, what: sensor}'],
    ],
    ['steps:', 'stepps: []\nsteps:', ['unknown-key | did you mean steps?']],
  ])('%s → %s', (was, is, faults) => {
    expect(faultsWith(was, is)).toEqual(faults);
  });

  it.each(['__proto__', 'constructor', 'toString'])('a condition called %s is no condition', (key) => {
    const codes = faultsWith('when: {did: replaced, what: frame}', `when: {${key}: 1}`).map(
      (fault) => fault.split(' ')[0],
    );
    expect(codes).toEqual(['unknown-key']);
  });

  it('bears the name of its file', () => {
    expect(readPack('pack: [', 'rules/frame/1.0.0.yaml', '').problems[0]).toMatchObject({
      code: 'yaml-syntax',
      file: 'rules/frame/1.0.0.yaml',
    });
  });
});

describe('packs taken together', () => {
  const places = new Map([
    ['frame', 8],
    ['bench', 17],
  ]);
  const codes = (...bodies: string[]): string[] =>
    combinedFlaws(preparePacks(bodies.map(packOf)).disagreements, places, 7).map(
      ({ code, at, message }) => `${at} ${code} ${message}`,
    );
  const check = `checks:
  - {id: band, kind: range, title: Band, of: tank, in: [key-on], tiers: [{weight: look, at-least: 1 psi}], basis: {kind: from-memory}}
`;

  it('two that fit say nothing', () => {
    expect(codes(`${check}pack: frame`, 'pack: bench')).toEqual([]);
  });
  it('each conflict is told at the later pack', () => {
    const steps =
      'steps:\n  - {id: wash, title: Wash, minutes: 5}\nhold-points:\n  - {id: release, title: R, clear-when: {step: wash}}\n';
    const channels =
      'channels:\n  - {id: tank, title: Tank, quantity: pressure, unit: bar, by: gauge, depends: []}\n';
    expect(codes(`${check}${steps}pack: frame`, `${steps}${channels}pack: bench`)).toEqual([
      '17 conflicting-packs frame and bench both define the step wash',
      '17 conflicting-packs frame and bench both define the hold point release',
      '17 conflicting-packs frame and bench disagree on the channel tank',
    ]);
  });
  it('a cycle through two packs is told where the packs are listed', () => {
    const step = (id: string, after: string): string =>
      `steps:\n  - {id: ${id}, title: T, minutes: 1, after: [${after}]}\n`;
    expect(codes(`${check}${step('wash', 'dry')}pack: frame`, `${step('dry', 'wash')}pack: bench`)).toEqual([
      '7 step-cycle steps of these packs wait for one another: wash → dry → wash',
    ]);
  });
  it('none and none with checks are both too little', () => {
    expect(codes()).toEqual(['7 no-checks this job names no rule packs']);
    expect(codes('pack: bench')).toEqual(['7 no-checks the packs of this job hold no check to judge by']);
  });
  it('a job without a list of packs has its place at the beginning', () => {
    expect(openJob('worksheet: 1').packsAt).toBe(0);
    expect(openJob('worksheet: 1\npacks: [a]').packsAt).toBe(20);
    expect(openJob('packs: a@1').packs).toEqual([{ ref: 'a@1', at: 7 }]);
  });
});

describe('readProofs', () => {
  const faults = (was: string, is: string): string[] => {
    const text = soundPack.replace(was, is);
    const { pack, root, problems } = readPack(text, 'p.yaml', '');
    if (!pack || !root) throw new Error(JSON.stringify(problems));
    return readProofs(text, 'p.yaml', root, pack, new Map()).problems.map(
      ({ line, column, code, hint }) => `${line}:${column} ${code} | ${hint}`,
    );
  };
  it('finds nothing wrong with the sound pack', () => {
    expect(faults('proofs:', 'proofs:')).toEqual([]);
  });
  it.each([
    ['frame-voltage: 0.1 V', 'frame-voltage: 0,1 V', '25:39 decimal-comma | write 0.1 V'],
    ['frame-voltage: 0.1 V', 'frame-voltge: 0.1 V', '25:24 unknown-channel | did you mean frame-voltage?'],
    ['expect: {quiet:', 'expect: {quite:', '26:13 unknown-name | did you mean frame/quiet?'],
    ['  - given:', '  - with: [bnch]\n    given:', '25:12 unknown-pack | name another pack of the library'],
    ['  - given:', '  - as-of: noon\n    given:', '25:12 bad-time | write it like 2026-03-02T08:15'],
  ])('%s → %s', (was, is, fault) => {
    expect(faults(was, is)).toEqual([fault]);
  });
});
