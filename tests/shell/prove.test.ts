import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { makeFolder } from '../support/folder.ts';
import { projectRoot } from '../support/run.ts';

const pack = `pack: bench
version: 1.0.0
title: Suspects that nothing tells apart
changes: first issue
suspects-basis: {kind: from-memory}
minutes-basis: {kind: from-memory}
evidence: [{id: supply, title: Supply, sources: [{code-means: [supply-range]}]}]
escalate: {amount: 300}
suspects:
  - id: module
    title: control module
    prior: 1
    wrong-part: {amount: 900, minutes: 10}
    confirm: [{test: pins, found: good}]
    expects: [{group: supply, shows: out, how: usually}]
  - id: wire
    title: its wire
    prior: 1
    wrong-part: {amount: 10, minutes: 10}
    expects: [{group: supply, shows: out, how: usually}]
tests:
  - id: pins
    title: Feed at the pins
    minutes: 12
    layouts: [four-corner-air]
    outcomes: [{id: good, title: it stands}, {id: low, title: it falls}]
`;

const told = pack.replace(
  '[{id: good, title: it stands}, {id: low, title: it falls}]',
  '[{id: good, title: it stands, how: {wire: never, others: always}}, {id: low, title: it falls, how: {wire: always, others: never}}]',
);

const prove = async (text: string, shop = '', more: readonly string[] = []) => {
  const folder = await makeFolder({ 'packs/bench/1.0.0.yaml': text, 'cornerwise.yaml': shop });
  return folder.run(['packs', 'prove', 'bench', '--rules', 'packs', '--width', '200', ...more]);
};

describe('packs prove', () => {
  it('fails a costly part that nothing brings over its threshold, with the file, what lacks and what to write', async () => {
    const { code, stdout, stderr } = await prove(pack);
    expect({ code, stderr }).toEqual({ code: 1, stderr: '' });
    expect(stdout).toContain(
      'By readings alone these cannot be told apart: control module, its wire\n      NO TEST SPLITS control module, its wire\n',
    );
    expect(stdout).toMatch(
      /FAILS: control module \(module\) must be over 75\.3 % before it may be ordered; its findings and tests bring it to \d+\.\d % at best,\s+with its wire \(wire\) beside it\n/u,
    );
    expect(stdout.replace(/\s+/gu, ' ')).toContain(
      'packs/bench/1.0.0.yaml: add a test with an outcome that is often found under module and seldom under wire, or a sign that only one of them shows',
    );
  });

  it('fails a part on the layouts that cannot confirm it', async () => {
    const { code, stdout } = await prove(told);
    expect(code).toBe(1);
    expect(stdout.replace(/\s+/gu, ' ')).toContain(
      'FAILS: control module (module) cannot be confirmed on rear-air-assist and four-corner-sensors, since it wants what cannot be had there: pins finds good packs/bench/1.0.0.yaml: let the test serve every layout of module',
    );
  });

  it('passes once a test tells the two apart on every layout, and says with --all by what', async () => {
    const everywhere = told.replace('    layouts: [four-corner-air]\n', '');
    const { code, stdout } = await prove(everywhere, '', ['--all']);
    expect(code).toBe(0);
    expect(stdout).toContain('split by Feed at the pins (pins), 12 min');
    expect(stdout).toContain('control module (module) gets over 75.3 % by supply shows out; pins finds good');
    expect((await prove(everywhere)).stdout).not.toContain('gets over');
  });

  it('counts labour as the shop file does, and says so', async () => {
    expect((await prove(pack)).stdout).toContain('(labour at 85 an hour, since no shop file says)');
    const { stdout } = await prove(pack, 'labour-rate: 120 / h\ncurrency: EUR\n');
    expect(stdout).toContain('(labour at 120 EUR an hour, as the shop file says)');
    expect(stdout).toContain('must be over 75.4 %');
  });

  it('says where a pack gives no thresholds to judge', async () => {
    const { code, stdout } = await prove(pack.replace('escalate: {amount: 300}\n', ''));
    expect(code).toBe(0);
    expect(stdout).toContain('Thresholds are not judged');
  });
});

const apron = await readFile(join(projectRoot, 'tests/scenarios/rules/apron/1.0.0.yaml'), 'utf8');

describe('packs prove on a pack whose proofs leave something open', () => {
  it('names file, line, limit and the proof to add, and a pack with these proofs passes', async () => {
    const part = `pack: bench
version: 1.0.0
title: One limit
components: [{id: sensor, per: corner, title: sensor}]
channels: [{id: position, per: corner, title: position, quantity: voltage, unit: V, by: module, depends: [sensor]}]
checks:
  - {id: rails, kind: range, title: Rails, of: position, in: [key-on], basis: {kind: from-memory}, tiers: [{weight: hold, at-least: 0.25 V}]}
proofs:
`;
    const proof = (reading: string, expected: string): string =>
      `  - {given: {instruments: {module: {accuracy: 0 V, shows: 0.001 V}}, state: key-on, readings: {position: {LF: ${reading}}}}, expect: {rails: {LF: ${expected}}}}\n`;
    const open = part + proof('0.100 V', 'out hold') + proof('2.500 V', 'within');
    const { code, stdout } = await prove(open);
    expect(code).toBe(1);
    expect(stdout).toContain('bench 1.0.0: 2 proofs hold, 0 do not; 1 limit, 2 moves unnoticed\n');
    const [, down = ''] =
      /7: add a proof with position\.LF at (\S+ V), expecting out hold/u.exec(stdout) ?? [];
    const [, up = ''] = /7: add a proof with position\.LF at (\S+ V), expecting within/u.exec(stdout) ?? [];
    const mended = await prove(open + proof(down, 'out hold') + proof(up, 'within'));
    expect(mended.stdout).toBe('bench 1.0.0: 4 proofs hold, 0 do not; 1 limit, all pinned\n');
    expect(mended.code).toBe(0);
  });

  it('fails for each of the things that a proof, or nothing, could show', async () => {
    const folder = await makeFolder({ 'packs/apron/1.0.0.yaml': apron });
    const { code, stdout } = await folder.run([
      'packs',
      'prove',
      'apron',
      '--rules',
      'packs',
      '--width',
      '200',
    ]);
    expect(code).toBe(1);
    const fails = [...stdout.matchAll(/FAILS: (.*)\n {6}packs\/apron\/1\.0\.0\.yaml:(\d+)/gu)].map(
      ([, what]) => what,
    );
    expect(fails).toEqual(
      expect.arrayContaining([
        'no check judges jump-pack',
        expect.stringContaining('can never be reported'),
        'no proof shows standing silent',
        'standing has a limit without a unit: 12.2',
        'step chock asks for the step stand-clearly, which none of these packs has',
        'step stand-clear asks for the check apron/rail, which none of these packs has',
        'no proof makes the step chock needed',
      ]),
    );
  });

  it('fails where nothing is run at all', async () => {
    const nothing =
      'pack: bench\nversion: 1.0.0\ntitle: Nothing\nhold-points: [{id: gate, title: Gate, clear-when: {all: []}}]\n';
    const { code, stdout } = await prove(nothing);
    expect(code).toBe(1);
    expect(stdout).toContain('FAILS: nothing was run, since the pack has neither proofs nor suspects');
  });

  it('asks an earlier version of a shipped pack, byte for byte, only whether its proofs hold', async () => {
    const released = await readFile(join(projectRoot, 'rules/body-heights/1.0.0.yaml'), 'utf8');
    const run = async (text: string) => {
      const folder = await makeFolder({ 'packs/body-heights/1.0.0.yaml': text });
      return folder.run(['packs', 'prove', 'body-heights@1.0.0', '--rules', 'packs', '--width', '200']);
    };
    const kept = await run(released);
    expect([kept.code, kept.stdout]).toEqual([
      0,
      expect.stringMatching(/^body-heights 1\.0\.0: 16 proofs hold, 0 do not\nOf earlier versions/u),
    ]);
    const changed = await run(`${released}# another comment\n`);
    expect(changed.code).toBe(1);
    expect(changed.stdout).toContain('FAILS: no proof of moves-together notices');
  });
});
