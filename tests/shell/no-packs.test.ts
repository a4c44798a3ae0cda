import { cp, mkdir, mkdtemp, readdir, readFile, realpath, rm, writeFile } from 'node:fs/promises';
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
  const judged = async (folder: string) => {
    const argv = ['check', join('jobs', example), '--format', 'ndjson', '--fail-on', 'never'];
    const { code, stdout } = await runCli(argv, { cwd: folder });
    expect(code).toBe(0);
    return JSON.parse(stdout) as { packs: { id: string; version: string }[]; warnings: string[] };
  };

  it.each([
    ['no shop file', null],
    ['a shop file that names none', 'zone: Europe/Dublin\n'],
  ])('is judged with the newest of all that are at hand, with %s', async (_, shop) => {
    const folder = await copied();
    if (shop !== null) await writeFile(join(folder, 'cornerwise.yaml'), shop);
    const { packs, warnings } = await judged(folder);
    expect(packs.map(({ id }) => id)).toEqual(
      (await readdir(join(projectRoot, 'rules'), { withFileTypes: true }))
        .filter((one) => one.isDirectory())
        .map(({ name }) => name)
        .sort(),
    );
    expect(warnings[0]).toMatch(/^assumed, since the file does not say: .*all rule packs at hand$/u);
  });

  it('is judged with those of the shop file where it names some', async () => {
    const folder = await copied();
    await writeFile(join(folder, 'cornerwise.yaml'), 'packs: [position-signals@1]\n');
    const { packs, warnings } = await judged(folder);
    expect(packs.map(({ id }) => id)).toEqual(['position-signals']);
    expect(warnings.filter((one) => one.includes('assumed'))).toEqual([]);
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
