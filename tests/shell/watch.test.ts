import { type ChildProcess, spawn } from 'node:child_process';
import { cp, mkdir, mkdtemp, readFile, rename, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { Command } from 'commander';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { addCheck } from '../../src/shell/commands/check.ts';
import type { WatchTools } from '../../src/shell/disk/watch-tools.ts';
import { type Io, realIo } from '../../src/shell/io.ts';
import { watch } from '../../src/shell/watch.ts';
import { projectRoot, runCli } from '../support/run.ts';

const bin = join(projectRoot, 'bin/cornerwise.js');
const example = (name: string): Promise<string> => readFile(join(projectRoot, 'examples', name), 'utf8');

let folder = '';
let running: Running[] = [];

/** A watching process and what it has printed so far. */
interface Running {
  readonly child: ChildProcess;
  readonly out: () => string;
  readonly err: () => string;
  /** Waits until what it printed so far answers the question. */
  readonly until: (answered: (out: string, err: string) => boolean) => Promise<void>;
  readonly end: (signal: 'SIGINT' | 'SIGTERM') => Promise<{ code: number | null; signal: string | null }>;
}

const start = (args: readonly string[]): Running => {
  const child = spawn(process.execPath, [bin, 'check', ...args, '--watch'], {
    cwd: folder,
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let out = '';
  let err = '';
  let look = (): void => {};
  child.stdout.on('data', (chunk) => {
    out += chunk;
    look();
  });
  child.stderr.on('data', (chunk) => {
    err += chunk;
    look();
  });
  const ended = new Promise<{ code: number | null; signal: string | null }>((resolve) =>
    child.on('close', (code, signal) => resolve({ code, signal })),
  );
  const one: Running = {
    child,
    out: () => out,
    err: () => err,
    until: (answered) =>
      new Promise((resolve, reject) => {
        const late = setTimeout(() => reject(new Error(`still waiting; printed:\n${out}\n${err}`)), 40_000);
        look = () => {
          if (!answered(out, err)) return;
          clearTimeout(late);
          look = () => {};
          resolve();
        };
        look();
      }),
    end: (signal) => {
      child.kill(signal);
      return ended;
    },
  };
  running.push(one);
  return one;
};

const count = (text: string, part: string | RegExp): number => text.split(part).length - 1;
const separator = /\n--- \d{4}-\d\d-\d\d \d\d:\d\d:\d\d, judged again ---\n/u;
const sheets = (out: string): number => count(out, 'Findings:');
const isReady = (_: string, err: string): boolean => err.includes('Ctrl-C ends\n');

/** Saves as many editors do: a new file that takes the old one's name. */
const put = async (text: string, name = 'job.yaml'): Promise<void> => {
  await writeFile(join(folder, `${name}~`), text);
  await rename(join(folder, `${name}~`), join(folder, name));
};

/** Saves into the file itself. */
const overwrite = (text: string): Promise<void> => writeFile(join(folder, 'job.yaml'), text);

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'watch-'));
  await put(await example('cornerwise.yaml'), 'cornerwise.yaml');
  await put(await example('shuttle-03-yearly-look.yaml'));
});
afterEach(async () => {
  for (const { child } of running) child.kill('SIGKILL');
  running = [];
  await rm(folder, { recursive: true, force: true });
});

describe('check --watch', () => {
  it('judges again at each save, however it is saved, and through a mistake', async () => {
    const healthy = await example('shuttle-03-yearly-look.yaml');
    const low = await example('shuttle-07-left-rear-low.yaml');
    const job = start(['job.yaml']);
    await job.until(isReady);
    expect(job.err()).toBe('watching 1 file; Ctrl-C ends\n');
    expect(sheets(job.out())).toBe(1);
    expect(job.out()).not.toMatch(separator);

    await overwrite(low);
    await job.until((out) => sheets(out) === 2);
    expect(job.out().split(separator).at(-1)).toContain('\nShuttle 7 · S07-0412');

    await overwrite(low.replace('12.2 V', '12,2 V'));
    await job.until((_, err) => err.includes('[decimal-comma]'));

    await put(healthy);
    await job.until((out) => sheets(out) === 3);
    expect(job.out().split(separator).at(-1)).toContain('\nShuttle 3');

    await put(low);
    await job.until((out) => sheets(out) === 4);
    expect(count(job.err(), 'Ctrl-C ends')).toBe(1);
    expect(await job.end('SIGINT')).toEqual({ code: 1, signal: null });
  });

  it('judges a file again that went away and came back', async () => {
    const job = start(['job.yaml']);
    await job.until(isReady);
    await rm(join(folder, 'job.yaml'));
    await job.until((_, err) => err.includes('there is no such file'));
    await put(await example('shuttle-03-yearly-look.yaml'));
    await job.until((out) => sheets(out) === 2);
    expect(await job.end('SIGTERM')).toEqual({ code: 0, signal: null });
  });

  it('waits for a folder that is not there yet, and for one that is put anew', async () => {
    const job = start(['jobs/job.yaml']);
    await job.until(isReady);
    for (const times of [1, 2]) {
      await mkdir(join(folder, 'jobs'));
      await put(await example('shuttle-03-yearly-look.yaml'), 'jobs/job.yaml');
      await job.until((out) => sheets(out) === times);
      await rm(join(folder, 'jobs'), { recursive: true });
      await job.until((_, err) => count(err, 'there is no such file') === times + 1);
    }
    expect(await job.end('SIGINT')).toEqual({ code: 2, signal: null });
  });

  it('judges again when the shop file or a rule folder changes', async () => {
    await cp(join(projectRoot, 'rules'), join(folder, 'rules'), { recursive: true });
    const job = start(['job.yaml', '--rules', 'rules']);
    await job.until(isReady);
    const shop = await example('cornerwise.yaml');
    await put(`${shop}nonsense: 1\n`, 'cornerwise.yaml');
    await job.until((_, err) => err.includes('unknown key "nonsense"'));
    await put(shop, 'cornerwise.yaml');
    await job.until((out) => sheets(out) === 2);
    const pack = 'rules/handover/2.1.0.yaml';
    await put(`${await readFile(join(folder, pack), 'utf8')}nonsense: 1\n`, pack);
    await job.until((_, err) => count(err, 'unknown key "nonsense"') === 2);
    await rm(join(folder, pack));
    await job.until((out) => sheets(out) === 3);
    expect(await job.end('SIGINT')).toEqual({ code: 0, signal: null });
  });

  it('finds files of a pattern that come later', async () => {
    const job = start(['job*.yaml']);
    await job.until(isReady);
    await put(await example('shuttle-07-left-rear-low.yaml'), 'job-2.yaml');
    await job.until((out) => sheets(out) === 3);
    expect(await job.end('SIGINT')).toEqual({ code: 1, signal: null });
  });

  it('follows a link to where the file itself is saved', async () => {
    await mkdir(join(folder, 'elsewhere'));
    await put(await example('shuttle-03-yearly-look.yaml'), 'elsewhere/real.yaml');
    await rm(join(folder, 'job.yaml'));
    await symlink('elsewhere/real.yaml', join(folder, 'job.yaml'));
    const job = start(['job.yaml']);
    await job.until(isReady);
    await put(await example('shuttle-07-left-rear-low.yaml'), 'elsewhere/real.yaml');
    await job.until((out) => out.includes('S07-0412'));
    expect(await job.end('SIGINT')).toEqual({ code: 1, signal: null });
  });

  it('ends when nobody reads it any longer', async () => {
    const job = start(['job.yaml']);
    await job.until(isReady);
    job.child.stdout?.destroy();
    const closed = new Promise((resolve) => job.child.on('exit', (code) => resolve(code)));
    await put(await example('shuttle-07-left-rear-low.yaml'));
    expect(await closed).toBe(1);
  });

  it('gives a line at each judgement to a machine, with nothing between', async () => {
    const job = start(['job.yaml', '--format', 'ndjson']);
    await job.until(isReady);
    await put('worksheet: 2\n');
    await job.until((out) => count(out, '\n') === 2);
    await put(await example('shuttle-07-left-rear-low.yaml'));
    await job.until((out) => count(out, '\n') === 3);
    const lines = job
      .out()
      .trimEnd()
      .split('\n')
      .map((line) => JSON.parse(line));
    expect(lines.map(({ job: id }) => id ?? null)).toEqual([expect.any(String), null, 'S07-0412']);
    expect(await job.end('SIGINT')).toEqual({ code: 1, signal: null });
  });

  it.each([
    [['-'], 'standard input'],
    [['job.yaml', '--format', 'json'], 'ndjson'],
  ])('refuses %j', async (args, says) => {
    const { code, stdout, stderr } = await runCli(['check', ...args, '--watch'], { cwd: folder });
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(/^cornerwise: --watch /u);
    expect(stderr).toContain(says);
  });
});

/** Folders that open or not as the test says, and a stop that the test pulls. */
const fakeTools = (refuse: (folder: string) => boolean = () => false) => {
  const open = new Map<string, (name: string | null) => void>();
  const opened: string[] = [];
  let stop = (): void => {};
  let listening = false;
  const tools: WatchTools = {
    openFolder: (path, changed) => {
      if (refuse(path)) throw Object.assign(new Error('no'), { code: 'EMFILE' });
      open.set(path, changed);
      opened.push(path);
      return () => open.delete(path);
    },
    onStop: (given) => {
      stop = given;
      listening = true;
      return () => {
        listening = false;
      };
    },
  };
  return { open, opened, tools, stop: () => stop(), isListening: () => listening };
};

describe('what stands between two sheets', () => {
  /** The whole of standard output when each text in turn is saved once the sheet before it is printed. */
  const printed = async (
    texts: readonly string[],
    surroundings: { readonly isTerminal: boolean; readonly term?: string },
    more: readonly string[] = [],
  ): Promise<string> => {
    const { open, tools, stop } = fakeTools();
    const left = [...texts];
    let out = '';
    const next = async (): Promise<void> => {
      const text = left.shift();
      if (text === undefined) return stop();
      await put(text);
      for (const changed of open.values()) changed('job.yaml');
    };
    const write = (text: string): void => {
      out += text;
      if (text.includes('Findings:') || text.includes('[decimal-comma]')) void next();
    };
    const io: Io = {
      ...realIo(),
      cwd: folder,
      env: { TERM: surroundings.term ?? 'xterm' },
      now: () => Date.UTC(2026, 6, 2, 17, 0, 5),
      stdout: { write, isTerminal: surroundings.isTerminal, columns: 80 },
      stderr: { write },
    };
    await put(await example('shuttle-03-yearly-look.yaml'));
    const program = new Command();
    addCheck(program, { io, version: '0.0.0', finish: () => {} }, tools);
    await program.parseAsync(['check', 'job.yaml', '--watch', '--no-color', ...more], { from: 'user' });
    return out;
  };
  const clear = '\u001b[H\u001b[2J';

  it("is a line with the time in the job's zone", async () => {
    const out = await printed([await example('shuttle-07-left-rear-low.yaml')], { isTerminal: false });
    expect(out.split('\n--- 2026-07-02 18:00:05, judged again ---\n')).toHaveLength(2);
    expect(out).not.toContain(clear);
  });

  it('is a line with the time in UTC where there is no job', async () => {
    const mistake = (await example('shuttle-03-yearly-look.yaml')).replace('12.51 V', '12,51 V');
    const out = await printed([mistake], { isTerminal: false });
    expect(out).toContain('\n--- 2026-07-02 17:00:05, judged again ---\n');
  });

  it('is a clear screen on a terminal, before the first sheet, too', async () => {
    const low = await example('shuttle-07-left-rear-low.yaml');
    const out = await printed([low], { isTerminal: true });
    expect(out.startsWith(clear)).toBe(true);
    expect(out.split(clear)[2]).toMatch(/^Shuttle 7 /u);
    expect(out).not.toContain('judged again');
    expect(await printed([low], { isTerminal: true, term: 'dumb' })).not.toContain(clear);
  });

  it('judges each at its own now, or at the time that was asked for', async () => {
    const low = await example('shuttle-07-left-rear-low.yaml');
    expect(count(await printed([low], { isTerminal: false }), /(?: · |^ {2})2026-07-02 18:00$/mu)).toBe(2);
    const asked = await printed([low], { isTerminal: false }, ['--as-of', '2026-03-05T12:00']);
    expect(count(asked, /(?: · |^ {2})2026-03-05 12:00$/mu)).toBe(2);
  });
});

describe('the loop', () => {
  it('closes every watcher and forgets its signals, also after a fault', async () => {
    const { open, tools, isListening } = fakeTools();
    const wanted = new Map([[folder, new Set(['job.yaml'])]]);
    const watching = watch(
      {
        look: async () => ({ wanted, print: 'one' }),
        judge: () => Promise.reject(new Error('a fault')),
        ready: () => {},
        refused: () => {},
      },
      tools,
    );
    await expect(watching).rejects.toThrow('a fault');
    expect([open.size, isListening()]).toEqual([0, false]);
  });

  it('heeds only the names that matter, and puts the changes of one save together', async () => {
    const { open, tools, stop } = fakeTools();
    const wanted = new Map([[folder, new Set(['job.yaml'])]]);
    let looks = 0;
    const judged: string[] = [];
    const change = (name: string): void => open.get(folder)?.(name);
    await watch(
      {
        look: async () => {
          looks += 1;
          return { wanted, print: String(looks) };
        },
        judge: async ({ print }) => {
          judged.push(print);
          if (judged.length === 2) stop();
        },
        ready: () => {
          for (const name of ['other.yaml', 'job.yaml', 'job.yaml', 'job.yaml']) change(name);
        },
        refused: () => {},
      },
      tools,
    );
    // The first judgement is of the second look, taken once the folder was watched.
    expect(judged).toEqual(['2', '3']);
    expect(open.size).toBe(0);
  });

  it('does not judge again what is the same as before', async () => {
    const { open, tools, stop } = fakeTools();
    const wanted = new Map([[folder, new Set(['job.yaml'])]]);
    let looks = 0;
    let judged = 0;
    await watch(
      {
        look: async () => {
          looks += 1;
          // Two looks at the beginning; the third answers the change.
          if (looks === 3) stop();
          return { wanted, print: 'one' };
        },
        judge: async () => {
          judged += 1;
        },
        ready: () => open.get(folder)?.('job.yaml'),
        refused: () => {},
      },
      tools,
    );
    expect([looks, judged]).toEqual([3, 1]);
  });

  it('watches the folder anew that is put in the place of another', async () => {
    const { open, opened, tools, stop } = fakeTools();
    const wanted = new Map([[folder, new Set(['job.yaml'])]]);
    let looks = 0;
    await watch(
      {
        look: async () => {
          looks += 1;
          return { wanted, print: String(looks) };
        },
        judge: async ({ print }) => {
          if (print !== '2') stop();
        },
        ready: () => open.get(folder)?.(basename(folder)),
        refused: () => {},
      },
      tools,
    );
    expect(opened).toEqual([folder, folder]);
  });

  it('tells of folders that cannot be watched, and ends where that leaves none', async () => {
    const { tools } = fakeTools(() => true);
    const refused: string[] = [];
    let judged = 0;
    await watch(
      {
        look: async () => ({ wanted: new Map([[folder, 'all' as const]]), print: 'one' }),
        judge: async () => {
          judged += 1;
        },
        ready: () => {
          throw new Error('nothing is watched');
        },
        refused: (path) => refused.push(path),
      },
      tools,
    );
    expect([judged, refused]).toEqual([1, [folder]]);
  });
});
