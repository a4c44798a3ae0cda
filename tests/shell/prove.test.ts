import { describe, expect, it } from 'vitest';
import { makeFolder } from '../support/folder.ts';

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
