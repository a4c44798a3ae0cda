import { describe, expect, it } from 'vitest';
import { runCli } from '../../support/run.ts';

const job = `worksheet: 1
job: S07-0412
title: Left rear sits low
opened: 2026-03-02T08:15
zone: Europe/Dublin
status: open
packs: [position-signals@1]
vehicle: {name: Shuttle 7, layout: four-corner-air}
snapshots:
  - id: as-found
    at: 2026-03-02T08:40
    state: key-on
    readings:
      position: {LF: 2.48 V, RF: 2.55 V, LR: 2.42 V, RR: 2.61 V}
`;

const check = (files: Readonly<Record<string, string | Uint8Array>>, ...more: string[]) =>
  runCli(['check', ...Object.keys(files), ...more], { files });

/** What a terminal would obey, or what would turn the text around. */
const unsafe = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]/u;

describe('one call', () => {
  it('judges what it can, and tells of every file that it cannot', async () => {
    const { code, stdout, stderr } = await check({
      'a.yaml': `a: ${'['.repeat(300_000)}`,
      'b.yaml': '- '.repeat(300_000),
      'c.yaml': job,
      'd.yaml': '? '.repeat(300_000),
      'e.yaml': Array.from({ length: 1500 }, (_, depth) => `${' '.repeat(depth)}a:`).join('\n'),
      'f.yaml': job.replace('2.48 V', '2,48 V'),
    });
    expect(code).toBe(2);
    expect(stdout).toContain('Shuttle 7');
    expect(
      [...stderr.matchAll(/^(\w)\.yaml:\d+:\d+: .*\[(.*)\]$/gmu)].map(([, file, what]) => `${file} ${what}`),
    ).toEqual(['a too-deep', 'b too-deep', 'd too-deep', 'e too-deep', 'f decimal-comma']);
    expect(stderr).not.toMatch(/\n\s+at /u);
  });

  it('gives bad files in JSON beside the good ones', async () => {
    const { stdout } = await check({ 'a.yaml': '[', 'b.yaml': job }, '--format', 'ndjson');
    const [bad, good] = stdout
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line));
    expect(bad).toEqual({
      format: 1,
      file: 'a.yaml',
      job: null,
      problems: [
        {
          code: 'yaml-syntax',
          message: 'a bracket is not closed',
          hint: 'close it with ] or }',
          line: 1,
          column: 1,
        },
      ],
    });
    expect(good).toMatchObject({ file: 'b.yaml', job: 'S07-0412' });
  });

  it('reads a job from standard input and names it so', async () => {
    const { code, stderr } = await runCli(['check', '-'], {
      files: {},
      stdin: job.replace('2.48 V', '2,48 V'),
    });
    expect(code).toBe(2);
    expect(stderr).toMatch(/^-:14:\d+: "2,48 V" has a decimal comma/u);
  });
});

describe('a terminal is sent nothing that it would obey', () => {
  const colours = ['--color', '--no-color'];
  it.each(colours)('from names, keys and values, with %s', async (colour) => {
    const { code, stdout, stderr } = await check(
      {
        'a.yaml': job
          .replace('Shuttle 7', '"Shuttle \\e[31m7\\u202e"')
          .replace('title: Left', 'title: Left\u009b31m\u202e')
          .replace('status: open', '"sta\u001b[2Jtus": open\n"\\u0007\\u200f": 1')
          .replace('state: key-on', 'state: "key\\u001b]0;x\\u0007-on"')
          .replace('zone: Europe/Dublin', 'zone: "Eur\\u001b[1mope"'),
        'b.yaml': `${job}\u001b[2J: [\n`,
        'c.yaml': `${job}x: "\u202e\n`,
      },
      colour,
    );
    expect(code).toBe(2);
    expect(stdout).toBe('');
    const styles = new RegExp(`${String.fromCharCode(27)}\\[\\d+m`, 'gu');
    expect(stderr.replace(styles, '')).not.toMatch(unsafe);
    expect(stderr).toContain('<1B>');
    expect(stderr).toContain('<202E>');
  });

  it('from the names of files and folders', async () => {
    const name = 's\u001b[31m\u202e\n7.yaml';
    const missing = await runCli(['check', `no-${name}`], { files: {} });
    expect(missing.stderr).toMatch(/^no-s<1B>\[31m<202E><0A>7\.yaml: there is no such file/u);
    expect(missing.stderr).not.toMatch(unsafe);
    const bad = await check({ [name]: 'a: [' });
    expect(bad.stderr).not.toMatch(unsafe);
    const folder = await runCli(['check', 'a.yaml', '--rules', 'no\u001b[31m'], { files: { 'a.yaml': job } });
    expect(folder.code).toBe(2);
    expect(folder.stderr).not.toMatch(unsafe);
  });

  it('from the words of the call', async () => {
    for (const argv of [
      ['chek\u001b[31m'],
      ['check', '--\u202efoo'],
      ['check', 'a', '--as-of', '\u001b[2J'],
    ]) {
      const { code, stderr } = await runCli(argv, { files: {} });
      expect(code).toBe(2);
      expect(stderr).not.toMatch(unsafe);
    }
  });

  it('from what a pack or a shop file says', async () => {
    const { code, stderr } = await runCli(['check', 'a.yaml'], {
      files: { 'a.yaml': job, 'cornerwise.yaml': 'zone: "Dub\\u001b[31mlin"\n"ru\u001bles": []\n' },
    });
    expect(code).toBe(2);
    expect(stderr).toContain('cornerwise.yaml:1:7: ');
    expect(stderr).not.toMatch(unsafe);
  });
});

describe('a call that is wrong', () => {
  it.each([
    [['chek', 'a.yaml'], /unknown command 'chek'\n.*check/su],
    [['check', 'a.yaml', '--fromat', 'json'], /unknown option '--fromat'\n.*--format/su],
    [['check'], /missing required argument/u],
    [['check', 'a.yaml', '--format', 'xml'], /xml.*invalid.*table/su],
    [['check', 'a.yaml', '--fail-on', 'nothing'], /nothing.*invalid.*hold/su],
    [
      ['check', 'a.yaml', '--as-of', 'yesterday'],
      /"yesterday" is not a time: write it like 2026-03-02T08:15/u,
    ],
    [['check', 'a.yaml', '--as-of', '2026-02-30'], /not on the calendar/u],
    [['check', 'a.yaml', '--rules', 'no-such-folder'], /there is no rule folder no-such-folder/u],
    [['check', 'a.yaml', '--rules', 'a.yaml'], /there is no rule folder a\.yaml/u],
    [['packs', 'list', '--rules', 'no-such-folder'], /there is no rule folder/u],
    [['packs', 'show', 'position-signal'], /\[unknown-pack\].*did you mean position-signals\?/su],
    [['packs', 'show', 'position-signals@77'], /\[unknown-pack-version\]/u],
    [['schema', 'jobs'], /jobs.*invalid.*job/su],
  ])('%j', async (argv, message) => {
    const { code, stderr } = await runCli(argv, { files: { 'a.yaml': job } });
    expect(code).toBe(2);
    expect(stderr).toMatch(message);
    expect(stderr).not.toMatch(/\n\s+at |fault in the program/u);
  });

  it.each([
    ['a file that is not there', ['no.yaml'], 'no.yaml: there is no such file [file-not-found]'],
    ['a file below a file', ['a.yaml/b.yaml'], 'a.yaml/b.yaml: there is no such file [file-not-found]'],
    ['a pattern that fits nothing', ['no*.yaml'], 'no*.yaml: no file matches this pattern [file-not-found]'],
    ['a folder', ['jobs'], 'jobs: this is a folder, not a file [file-unreadable]'],
  ])('%s', async (_, names, first) => {
    const { code, stderr } = await runCli(['check', ...names], {
      files: { 'a.yaml': job, 'jobs/b.yaml': job },
    });
    expect(code).toBe(2);
    expect(stderr.split('\n')[0]).toBe(first);
  });
});

describe('the surroundings of a job', () => {
  const files = { 'a.yaml': job };
  it.each([
    [
      'a rule folder that is not there',
      { 'cornerwise.yaml': 'rules: [here, nowhere]\n', 'here/x.txt': '' },
      /^cornerwise\.yaml:1:15: there is no rule folder nowhere \[file-not-found\]/u,
    ],
    [
      'a pack that the shop names wrongly',
      { 'a.yaml': job.replace(/packs: .*\n/u, ''), 'cornerwise.yaml': 'packs: [position-signal@1]\n' },
      /^cornerwise\.yaml:1:9: no pack is called "position-signal" \[unknown-pack\]/u,
    ],
    ['a shop file that is a folder', { 'cornerwise.yaml/x': '' }, /^cornerwise\.yaml: this is a folder/u],
    [
      'a shop file that is not UTF-8',
      { 'cornerwise.yaml': new Uint8Array([0x61, 0xff]) },
      /^cornerwise\.yaml:1:2: this is not UTF-8/u,
    ],
  ])('%s', async (_, more, message) => {
    const { code, stderr } = await runCli(['check', 'a.yaml'], { files: { ...files, ...more } });
    expect(code).toBe(2);
    expect(stderr).toMatch(message);
  });

  it('a shop file without content says nothing', async () => {
    const { code } = await runCli(['check', 'a.yaml'], {
      files: { ...files, 'cornerwise.yaml': '# to come\n' },
    });
    expect(code).toBe(0);
  });

  const bench = (version: string, more = ''): string => `pack: bench\nversion: ${version}\ntitle: t\n${more}`;
  it.each([
    ['broken', { 'r/bench/1.0.0.yaml': 'pack: [' }, /^r\/bench\/1\.0\.0\.yaml:1:7: a bracket is not closed/u],
    ['empty', { 'r/bench/1.0.0.yaml': '' }, /^r\/bench\/1\.0\.0\.yaml: there is nothing in this file/u],
    ['a folder', { 'r/bench/1.0.0.yaml/x': '' }, /^r\/bench\/1\.0\.0\.yaml: this is a folder/u],
    [
      'misplaced',
      { 'r/bench/1.0.0.yaml': bench('2.0.0') },
      /^r\/bench\/1\.0\.0\.yaml: this file calls itself bench 2\.0\.0/u,
    ],
    [
      'misspelt',
      { 'r/bench/1.0.0.yaml': bench('1.0.0', 'stepps: []\n') },
      /^r\/bench\/1\.0\.0\.yaml:4:1: unknown key "stepps"/u,
    ],
  ])('a pack that is %s is told by its own name', async (_, more, message) => {
    const text = job.replace('position-signals@1', 'position-signals@1, bench@1');
    const { code, stderr } = await runCli(['check', 'a.yaml', '--rules', 'r'], {
      files: { 'a.yaml': text, ...more },
    });
    expect(code).toBe(2);
    expect(stderr).toMatch(message);
  });

  it('with a pack missing, nothing is said of names that it may know', async () => {
    const text = `${job.replace('position-signals@1', 'position-signal@1').replace('position:', 'positron:')}log:
  - {at: 2026-03-02T09:00, did: replaced, what: flux-valve}
`;
    const { stderr } = await check({ 'a.yaml': text });
    expect([...stderr.matchAll(/\[([a-z-]+)\]$/gmu)].map(([, code]) => code)).toEqual(['unknown-pack']);
  });
});

describe('a great many', () => {
  const keys = Array.from({ length: 10_000 }, (_, index) => `k${index}: 1`);
  it('keys of a person’s own are read', async () => {
    const own = keys.map((key) => `x-${key}`).join('\n');
    expect((await check({ 'a.yaml': `${job}${own}\n` })).code).toBe(0);
    expect((await check({ 'a.yaml': `${job}x-a: {${keys.join(', ')}}\n` })).code).toBe(0);
  });

  it('problems are cut to what can be read, and the rest is counted', async () => {
    const text = `${job}${keys.join('\n')}\n`;
    const { code, stderr } = await check({ 'a.yaml': text });
    expect(code).toBe(2);
    expect(stderr.match(/\[unknown-key\]/gu)).toHaveLength(100);
    expect(stderr).toMatch(/\na\.yaml: 9900 more like these\n$/u);
    const { stdout } = await check({ 'a.yaml': text }, '--format', 'ndjson');
    const { problems } = JSON.parse(stdout);
    expect(problems).toHaveLength(501);
    expect(problems.at(-1).message).toBe('there are 9500 more problems from here on');
  });

  it('channels that no pack knows, codes and log entries are told', async () => {
    const channels = keys.map((key) => `      ${key} V`).join('\n');
    expect((await check({ 'a.yaml': `${job}${channels}\n` })).code).toBe(2);
    const log = '  - {at: 2026-03-02T09:05, did: replacd, what: sensor.LR}\n'.repeat(5000);
    expect((await check({ 'a.yaml': `${job}log:\n${log}` })).code).toBe(2);
  });

  it('blank lines and comments are read', async () => {
    expect(
      (await check({ 'a.yaml': job.replace('snapshots', `${'\n'.repeat(100_000)}snapshots`) })).code,
    ).toBe(0);
    expect(
      (await check({ 'a.yaml': job.replace('    readings', `${'# c\n'.repeat(100_000)}    readings`) })).code,
    ).toBe(0);
    expect((await check({ 'a.yaml': `${'\r\n'.repeat(100_000)}${job.replaceAll('\n', '\r\n')}` })).code).toBe(
      0,
    );
  });

  it('letters in one line are shown in part', async () => {
    const { stderr } = await check({ 'a.yaml': job.replace('key-on', 'k'.repeat(500_000)) });
    expect(Math.max(...stderr.split('\n').map((line) => line.length))).toBeLessThan(120);
  });
});
