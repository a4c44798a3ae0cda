import { access, mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { complete, type Place, presentShells, putProgram } from '../../support/completing.ts';
import { projectRoot } from '../../support/run.ts';

/** What each shell shows of a line: bash what it would put in, zsh the line afterwards, fish the candidates. */
interface Case {
  readonly line: string;
  readonly bash: readonly string[];
  readonly zsh: readonly string[];
  readonly fish: readonly string[];
}

const cases: readonly Case[] = [
  {
    line: 'cornerwise chec',
    bash: ['!-o nosort', 'check'],
    zsh: ['cornerwise check '],
    fish: ['check\tJudge job files: findings, steps outstanding, hold points.'],
  },
  {
    line: 'cornerwise packs pro',
    bash: ['!-o nosort', 'prove'],
    zsh: ['cornerwise packs prove '],
    fish: ['prove\tRun the proofs of packs, and check what their suspects can lead to.'],
  },
  {
    line: 'cornerwise check --format=nd',
    bash: ['!-o nosort', 'ndjson'],
    zsh: ['cornerwise check --format=ndjson '],
    fish: ['--format=ndjson'],
  },
  {
    line: 'cornerwise add jobs/s7.yaml key-on height.L',
    bash: ['!-o nospace', '!-o nosort', 'height.LF=', 'height.LR='],
    zsh: ['cornerwise add jobs/s7.yaml key-on height.L'],
    fish: ['height.LF=\theight by tape LF, mm', 'height.LR=\theight by tape LR, mm'],
  },
  {
    line: 'cornerwise add jobs/s7.yaml key-on height.LF',
    bash: ['!-o nospace', '!-o nosort', 'height.LF='],
    zsh: ['cornerwise add jobs/s7.yaml key-on height.LF='],
    fish: ['height.LF=\theight by tape LF, mm'],
  },
  {
    line: 'cornerwise add jobs/s7.yaml key-on floor=l',
    bash: ['!-o nosort', 'level'],
    zsh: ['cornerwise add jobs/s7.yaml key-on floor=level '],
    fish: ['floor=level'],
  },
  {
    line: 'cornerwise check jobs/s',
    bash: ['!-o filenames', '!-o nosort', 'jobs/s7.yaml'],
    zsh: ['cornerwise check jobs/s7.yaml '],
    fish: ['jobs/s7.yaml', 'jobs/sheet.txt'],
  },
  {
    line: 'cornerwise check jobs/sh',
    bash: ['!-o default'],
    zsh: ['cornerwise check jobs/sheet.txt '],
    fish: ['jobs/sheet.txt'],
  },
  {
    line: 'cornerwise check --rules ru',
    bash: ['!-o dirnames'],
    zsh: ['cornerwise check --rules rules/'],
    fish: ['rules/'],
  },
  {
    line: 'cornerwise packs show --rules rules ev',
    bash: ['!-o nosort', 'ev\\$\\(touch\\ hacked\\)\\;x'],
    zsh: ['cornerwise packs show --rules rules ev\\$\\(touch\\ hacked\\)\\;x '],
    fish: ['ev$(touch hacked);x'],
  },
  {
    line: 'cornerwise check --width 1',
    bash: ['!-o nosort'],
    zsh: ['cornerwise check --width 1'],
    fish: [],
  },
];

let place: Place = { cwd: '', home: '' };

beforeAll(async () => {
  const folder = await mkdtemp(join(tmpdir(), 'completion-'));
  place = { cwd: join(folder, 'work'), home: join(folder, 'home') };
  await putProgram(place);
  await mkdir(join(place.cwd, 'jobs'), { recursive: true });
  const example = await readFile(join(projectRoot, 'examples/shuttle-03-yearly-look.yaml'), 'utf8');
  await writeFile(join(place.cwd, 'jobs/s7.yaml'), example);
  await writeFile(join(place.cwd, 'jobs/sheet.txt'), '');
  const pack = join(place.cwd, 'rules/ev$(touch hacked);x');
  await mkdir(pack, { recursive: true });
  await writeFile(join(pack, '1.0.0.yaml'), '');
});
afterAll(() => rm(join(place.home, '..'), { recursive: true, force: true }));

it('bash is here to be tried', () => {
  expect(presentShells).toContain('bash');
});

describe.each(presentShells)('%s', (shell) => {
  it.each(cases)('completes $line', async (one) => {
    const { lines, stderr } = await complete[shell](one.line, place);
    expect({ lines, stderr }).toEqual({ lines: one[shell], stderr: '' });
  });

  it('never runs what a name says', async () => {
    await complete[shell]('cornerwise packs show --rules rules ev', place);
    await expect(access(join(place.cwd, 'hacked'))).rejects.toThrow('ENOENT');
  });

  it('says nothing of a program that fails', async () => {
    const broken = { ...place, home: `${place.home}-broken` };
    await putProgram(broken, 'echo trouble >&2; exit 3');
    const { lines, stderr, screen } = await complete[shell]('cornerwise chec', broken);
    expect(stderr).toBe('');
    expect(lines.join('\n') + screen).not.toContain('trouble');
  });
});
