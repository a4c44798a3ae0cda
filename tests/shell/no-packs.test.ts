import { cp, mkdir, mkdtemp, readFile, realpath, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { projectRoot, runCli } from '../support/run.ts';

const example = 'shuttle-07-left-rear-low.yaml';

/** A job that leaves its packs to a shop file, copied into a folder of its own. */
const copied = async (): Promise<string> => {
  const folder = await realpath(await mkdtemp(join(tmpdir(), 'cornerwise-')));
  onTestFinished(() => rm(folder, { recursive: true, force: true }));
  await mkdir(join(folder, 'jobs'));
  await cp(join(projectRoot, 'examples', example), join(folder, 'jobs', example));
  return folder;
};

const problemsOf = async (
  cwd: string,
  file: string,
): Promise<{ code: string; message: string; hint: string }[]> => {
  const { code, stdout } = await runCli(['check', file, '--format', 'ndjson'], { cwd });
  expect(code).toBe(2);
  return JSON.parse(stdout).problems;
};

describe('a job for which nobody names packs', () => {
  it('is told where the shop file was looked for, and that is all that it is told', async () => {
    const folder = await copied();
    expect(await problemsOf(folder, join('jobs', example))).toMatchObject([
      {
        code: 'no-checks',
        message: `this job names no rule packs, and there is no shop file (cornerwise.yaml) in ${folder}/jobs or any folder above it`,
        hint: 'add packs: [position-signals@1] to the job, or write a shop file with that line in one of these folders',
      },
    ]);
  });

  it('is told which shop file names none either', async () => {
    const folder = await copied();
    await writeFile(join(folder, 'cornerwise.yaml'), 'zone: Europe/Dublin\n');
    expect(await problemsOf(folder, join('jobs', example))).toMatchObject([
      {
        code: 'no-checks',
        message: `this job names no rule packs, and neither does the shop file ${folder}/cornerwise.yaml`,
        hint: 'add packs: [position-signals@1] to the job or to the shop file',
      },
    ]);
  });

  it('can be judged once the hint was followed', async () => {
    const folder = await copied();
    await writeFile(join(folder, 'cornerwise.yaml'), 'packs: [position-signals@1]\n');
    const { code } = await runCli(['check', join('jobs', example), '--fail-on', 'never'], { cwd: folder });
    expect(code).toBe(0);
  });
});

describe("a check of a pack that is not among the job's", () => {
  const problemsWith = async (packs: string, check: string) => {
    const folder = await copied();
    const path = join(folder, 'jobs', example);
    const text = (await readFile(path, 'utf8')).replace(
      'check: position-signals/ride-band',
      `check: ${check}`,
    );
    await writeFile(path, text.replace('vehicle:', `packs: [${packs}]\nvehicle:`));
    return problemsOf(folder, path);
  };

  it('is answered with the pack to add', async () => {
    expect(await problemsWith('supply-charging@1', 'position-signals/ride-band')).toContainEqual(
      expect.objectContaining({
        code: 'unknown-name',
        message: 'the job\'s packs have no check "position-signals/ride-band"',
        hint: 'add position-signals@1 to packs, or name a check of the packs in use',
      }),
    );
  });

  it('is answered with a check that there is, where its pack is there', async () => {
    const [problem] = await problemsWith('position-signals@1', 'zz');
    expect(problem?.hint).toBe("name a check of the job's packs, such as position-signals/rails");
  });
});
