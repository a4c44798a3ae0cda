import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { projectRoot, runCli } from '../support/run.ts';

const example = (name: string): Promise<string> => readFile(join(projectRoot, 'examples', name), 'utf8');
const packs =
  'packs: [position-signals@1, supply-charging@1, air-supply@1, module-replacement@1, handover@1]\n';
const asOf = ['--as-of', '2026-07-20T12:00'];
let folder = '';

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'check-'));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

const write = async (name: string, text: string): Promise<string> => {
  await writeFile(join(folder, name), text);
  return name;
};

describe('exit codes', () => {
  it.each([
    [['examples/shuttle-03-yearly-look.yaml'], 0],
    [['examples/shuttle-07-left-rear-low.yaml'], 1],
    [['examples/shuttle-07-left-rear-low.yaml', '--fail-on', 'never'], 0],
    [['examples/shuttle-02-said-to-lean.yaml'], 0],
    [['examples/shuttle-02-said-to-lean.yaml', '--fail-on', 'look'], 1],
    [['examples/shuttle-07-left-rear-low.yaml', 'examples/mistakes/shuttle-08.yaml'], 2],
    [['examples/mistakes/shuttle-08.yaml', '--fail-on', 'never'], 2],
    [['no-such.yaml'], 2],
  ])('%j gives %i', async (args, code) => {
    expect((await runCli(['check', ...args, ...asOf])).code).toBe(code);
  });

  it('judges the other files of a call, and prints problems to the error stream', async () => {
    const { code, stdout, stderr } = await runCli([
      'check',
      'examples/mistakes/shuttle-08.yaml',
      'examples/shuttle-03-yearly-look.yaml',
      ...asOf,
    ]);
    expect(code).toBe(2);
    expect(stdout).toContain('Shuttle 3');
    expect(stderr).toContain('[decimal-comma]');
  });

  it('a job whose packs hold no check is wrong input', async () => {
    const text = (await example('shuttle-03-yearly-look.yaml')).replace(
      'vehicle:',
      'packs: [module-replacement@1]\nvehicle:',
    );
    const { code, stderr } = await runCli(['check', await write('no-check.yaml', text)], { cwd: folder });
    expect(code).toBe(2);
    expect(stderr).toContain('[no-checks]');
  });
});

describe('where jobs come from', () => {
  it('standard input', async () => {
    const stdin = (await example('shuttle-07-left-rear-low.yaml')).replace('vehicle:', `${packs}vehicle:`);
    const { code, stdout } = await runCli(['check', '-', ...asOf, '--format', 'json'], {
      cwd: folder,
      stdin,
    });
    expect(code).toBe(1);
    expect(JSON.parse(stdout)).toMatchObject({ jobs: [{ file: '-', job: 'S07-0412' }] });
  });

  it('a pattern, without the shop file, each file once', async () => {
    const { stdout } = await runCli([
      'check',
      'examples/*.yaml',
      'examples/shuttle-03-yearly-look.yaml',
      ...asOf,
      '--format',
      'ndjson',
    ]);
    const files = stdout
      .trimEnd()
      .split('\n')
      .map((line) => (JSON.parse(line) as { file: string }).file);
    expect(files).toContain('examples/shuttle-03-yearly-look.yaml');
    expect(files).not.toContain('examples/cornerwise.yaml');
    expect(new Set(files).size).toBe(files.length);
  });

  it('a file whose name looks like a pattern', async () => {
    const name = await write(
      'job[1].yaml',
      (await example('shuttle-03-yearly-look.yaml')).replace('vehicle:', `${packs}vehicle:`),
    );
    expect((await runCli(['check', name, ...asOf], { cwd: folder })).code).toBe(0);
  });
});

describe('the shop file', () => {
  it('gives packs, fail level and units from the nearest folder above', async () => {
    await write(
      'cornerwise.yaml',
      'packs: [air-supply@1]\nzone: Europe/Dublin\nfail-on: look\nunits: {pressure: bar}\n',
    );
    const job = `worksheet: 1
job: J1
title: Low tank
opened: 2026-03-02T08:00
status: open
vehicle: {name: Shuttle 4, layout: four-corner-air}
snapshots:
  - {id: a, at: 2026-03-02T08:10, state: key-on, readings: {tank: 60 psi}}
`;
    const { code, stdout } = await runCli(['check', await write('low.yaml', job), ...asOf], { cwd: folder });
    expect(code).toBe(1);
    expect(stdout).toContain('4.14 bar');
    expect((await runCli(['check', 'low.yaml', ...asOf, '--fail-on', 'hold'], { cwd: folder })).code).toBe(0);
    await rm(join(folder, 'cornerwise.yaml'));
  });

  it('that is wrong is a problem with its own file and place', async () => {
    await write('cornerwise.yaml', 'packs: [air-supply@1]\nequipmnt: []\n');
    const { code, stderr } = await runCli(['check', await write('any.yaml', 'worksheet: 1\n')], {
      cwd: folder,
    });
    expect(code).toBe(2);
    expect(stderr).toContain('cornerwise.yaml:2:1');
    await rm(join(folder, 'cornerwise.yaml'));
  });
});

describe('the time judged at', () => {
  it('is now where none is given', async () => {
    const now = Date.UTC(2026, 2, 2, 8, 30);
    const { stdout } = await runCli(['check', 'examples/shuttle-07-left-rear-low.yaml', '--format', 'json'], {
      now,
    });
    expect(JSON.parse(stdout)).toMatchObject({ asOf: '2026-03-02T08:30:00.000Z' });
    expect(stdout).toContain('lies after the time judged');
  });

  it('is read in the zone of the job, and by its offset where it has one', async () => {
    const at = async (time: string): Promise<unknown> => {
      const { stdout } = await runCli([
        'check',
        'examples/shuttle-22-rear-sinks-when-loaded.yaml',
        '--as-of',
        time,
        '--format',
        'json',
      ]);
      return (JSON.parse(stdout) as { asOf: unknown }).asOf;
    };
    expect(await at('2026-07-15T12:00')).toBe('2026-07-15T11:00:00.000Z');
    expect(await at('2026-07-15T12:00Z')).toBe('2026-07-15T12:00:00.000Z');
    expect(await at('2026-07-15T12:00+02:00')).toBe('2026-07-15T10:00:00.000Z');
  });
});

describe('colour', () => {
  const escapeCode = String.fromCharCode(27);
  const coloured = async (
    flags: readonly string[],
    env: Record<string, string>,
    isTerminal: boolean,
  ): Promise<boolean> => {
    const { stdout } = await runCli(['check', 'examples/shuttle-03-yearly-look.yaml', ...asOf, ...flags], {
      env,
      isTerminal,
    });
    return stdout.includes(escapeCode);
  };

  it.each<[string[], Record<string, string>, boolean, boolean]>([
    [[], {}, true, true],
    [[], {}, false, false],
    [[], { NO_COLOR: '1' }, true, false],
    [[], { FORCE_COLOR: '1' }, false, true],
    [[], { NO_COLOR: '1', FORCE_COLOR: '1' }, true, false],
    [['--color'], { NO_COLOR: '1' }, false, true],
    [['--no-color'], { FORCE_COLOR: '1' }, true, false],
    [[], { TERM: 'dumb' }, true, false],
  ])('%j %j on a terminal: %s gives %s', async (flags, env, isTerminal, expected) => {
    expect(await coloured(flags, env, isTerminal)).toBe(expected);
  });
});
