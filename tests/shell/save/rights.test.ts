import { execFile } from 'node:child_process';
import { chmod, chown, mkdir, rm, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { bundledProgram, openFolder } from './bundled.ts';
import { beside, job, textOf } from './job-file.ts';

// The superuser may write anywhere, so that the program runs as somebody else where the tests do not.
const isSuperuser = process.getuid?.() === 0;
const user = { uid: 65_534, gid: 65_534 };

let folder = '';
let program = '';

beforeAll(async () => {
  folder = await openFolder();
  program = await bundledProgram(folder);
});

afterAll(async () => {
  await rm(folder, { recursive: true, force: true });
});

const run = (file: string, ...words: string[]): Promise<{ code: number; stdout: string; stderr: string }> =>
  new Promise((resolve) => {
    const options = {
      cwd: dirname(file),
      env: { XDG_STATE_HOME: join(dirname(file), 'state') },
      ...(isSuperuser ? user : {}),
    };
    execFile(process.execPath, [program, ...words], options, (error, stdout, stderr) =>
      resolve({ code: typeof error?.code === 'number' ? error.code : 0, stdout, stderr }),
    );
  });

let count = 0;

/** A job file in a folder of its own that belongs to whoever runs the program. */
const ownFile = async (): Promise<string> => {
  count += 1;
  const file = join(folder, `jobs-${count}`, 'job.yaml');
  await mkdir(dirname(file));
  await writeFile(file, job);
  if (isSuperuser) for (const path of [file, dirname(file)]) await chown(path, user.uid, user.gid);
  return file;
};

const add = ['add', 'job.yaml', 'rest', 'supply=12.2'];

/** A call that is refused for want of rights: nothing is written, and nothing is left. */
const expectRefused = async (file: string, words: readonly string[]): Promise<void> => {
  const before = await textOf(file);
  const { code, stdout, stderr } = await run(file, ...words);
  expect([code, stdout]).toEqual([2, '']);
  expect(stderr).toContain('job.yaml or its folder may not be written to');
  expect(stderr).toContain('ask for the right to write there');
  expect(await textOf(file)).toBe(before);
  expect(await beside(file)).toEqual(['job.yaml']);
};

describe('a job that may not be written to', () => {
  it('is one that its owner protects, also where its folder could be written to', async () => {
    const file = await ownFile();
    await run(file, ...add);
    await chmod(file, 0o444);
    await expectRefused(file, add);
    await expectRefused(file, ['log', 'job.yaml', 'replaced', 'sensor.LR']);
    await expectRefused(file, ['undo', 'job.yaml']);
    await chmod(file, 0o644);
    expect((await run(file, 'undo', 'job.yaml')).code).toBe(0);
    expect(await textOf(file)).toBe(job);
  });

  it('is one in a folder that is protected', async () => {
    const file = await ownFile();
    await run(file, ...add);
    await chmod(dirname(file), 0o555);
    await expectRefused(file, add);
    await expectRefused(file, ['undo', 'job.yaml']);
    await chmod(dirname(file), 0o755);
  });

  it('is one that cannot even be read', async () => {
    const file = await ownFile();
    await chmod(file, 0o222);
    const { code, stdout } = await run(file, ...add);
    expect([code, stdout]).toEqual([2, '']);
    await chmod(file, 0o644);
    expect(await textOf(file)).toBe(job);
    expect(await beside(file)).toEqual(['job.yaml']);
  });
});

describe('a record of changes that may not be kept', () => {
  it('does not keep the change from being made', async () => {
    const file = await ownFile();
    const state = join(dirname(file), 'state');
    await mkdir(state, { mode: 0o555 });
    if (isSuperuser) await chown(state, 0, 0);
    expect((await run(file, ...add)).code).toBe(0);
    expect(await textOf(file)).toContain('supply: 12.2');
  });
});
