import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { Command } from 'commander';
import { describe, expect, it } from 'vitest';
import { addSweep } from '../../../src/shell/commands/sweep.ts';
import { readPlain } from '../../../src/shell/disk/read-plain.ts';
import type { Io } from '../../../src/shell/io.ts';
import type { ExitCode } from '../../../src/shell/shell.ts';
import { makeFolder } from '../../support/folder.ts';
import { jobText, linesOf } from '../../support/sweep.ts';

/** Runs a sweep that is stopped as soon as it lets others have a turn. */
const stopped = async (cwd: string, argv: readonly string[], isTerminal = false) => {
  let stdout = '';
  let stderr = '';
  let code: ExitCode = 0;
  const io: Io = {
    cwd,
    env: {},
    zone: 'UTC',
    now: () => Date.UTC(2026, 2, 2, 18),
    stdout: {
      write: (text) => {
        stdout += text;
      },
      isTerminal: false,
      columns: 80,
    },
    stderr: {
      write: (text) => {
        stderr += text;
      },
      isTerminal,
    },
    readStdin: async () => new Uint8Array(),
    readFile: async (path) => readPlain(path),
    isInteractive: false,
    openPrompter: () => {
      throw new Error('nothing is asked');
    },
  };
  const shell = {
    io,
    version: '0',
    finish: (given: ExitCode) => {
      code = given;
    },
  };
  const program = new Command().exitOverride();
  addSweep(program, shell, {
    onStop: (stop) => {
      setImmediate(stop);
      return () => {};
    },
  });
  await program.parseAsync(['sweep', ...argv], { from: 'user' });
  return { stdout, stderr, code };
};

describe('a sweep that is stopped', () => {
  const many = Object.fromEntries(
    Array.from({ length: 300 }, (_, index) => [`j${index}.yaml`, jobText({ job: `J${index}` })]),
  );

  it('prints what was done, says how far it came, and leaves files as they were', async () => {
    const folder = await makeFolder(many);
    await folder.write('last.ndjson', '');
    const out = ['--out', 'ndjson=last.ndjson', '--since', 'last.ndjson'];
    const { stdout, stderr, code } = await stopped(folder.path, ['.', '--format', 'ndjson', ...out]);
    const rows = linesOf({ stdout });
    expect(rows.length).toBeGreaterThan(0);
    expect(rows.length).toBeLessThan(300);
    expect(stderr).toBe(
      `cornerwise: stopped with ${rows.length} of 300 files judged; the files to write are as they were\n`,
    );
    expect(code).toBe(130);
    expect(await readFile(join(folder.path, 'last.ndjson'), 'utf8')).toBe('');
  });

  it('takes nothing for gone that it only did not come to', async () => {
    const folder = await makeFolder(many);
    await folder.run(['sweep', '.', '--out', 'ndjson=last.ndjson', '--no-cache']);
    const { stdout } = await stopped(folder.path, ['.', '--format', 'ndjson', '--since', 'last.ndjson']);
    expect(stdout).not.toContain('"gone"');
  });

  it('shows how far it is on a terminal only, and leaves nothing of it behind', async () => {
    const folder = await makeFolder(many);
    const { stderr } = await stopped(folder.path, ['.', '--format', 'ndjson'], true);
    const last = stderr.split('\n')[0]?.split('\u001b[K').at(-1);
    expect(last).toMatch(/^cornerwise: stopped with \d+ of 300 files judged$/u);
  });
});
