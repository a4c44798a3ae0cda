import { mkdir, readFile, rename, symlink, unlink, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { braces, text } from '../../../src/input/edit/value.ts';
import { libraryCache } from '../../../src/shell/library-cache.ts';
import { changeJob, type Plan } from '../../../src/shell/save/change-job.ts';
import { beside, call, ioBeside, job, jobFile, textOf } from './job-file.ts';

const entry = braces([
  ['at', text('2026-03-02T11:00')],
  ['did', text('noted')],
]);
const noted: Plan = { change: { kind: 'append', to: ['log'], items: [entry] }, what: 'noted' };
const withEntry = job.replace('log: []', 'log: [{at: 2026-03-02T11:00, did: noted}]');

/** Changes a job, by a plan that may do something to the file first. */
const change = (file: string, plan: () => Plan | Promise<Plan> = () => noted, name = 'job.yaml') =>
  changeJob(name, plan, { rules: [], io: ioBeside(file), libraries: libraryCache(), asOf: null, by: 'log' });

/** The message of an outcome that is trouble. */
const messageOf = (outcome: Awaited<ReturnType<typeof change>>): string => {
  if (outcome.kind !== 'trouble') throw new Error(`it is ${outcome.kind}`);
  return outcome.troubles.map(({ message }) => message).join('\n');
};

describe('a change of a job', () => {
  it('puts in what is new and leaves every other byte', async () => {
    const file = await jobFile();
    const outcome = await change(file);
    expect(outcome).toMatchObject({ kind: 'changed', onRecord: true, after: { text: withEntry } });
    expect(await textOf(file)).toBe(withEntry);
    expect(await beside(file)).toEqual(['job.yaml']);
  });

  it('keeps a byte order mark, and makes none', async () => {
    const file = await jobFile(`\ufeff${job}`);
    await change(file);
    expect(await readFile(file)).toEqual(Buffer.from(`\ufeff${withEntry}`));
    await change(file);
    expect([...(await readFile(file))].slice(0, 5)).toEqual([0xef, 0xbb, 0xbf, 0x77, 0x6f]);
  });

  it('keeps the line ends of Windows', async () => {
    const windows = (yaml: string): string => yaml.replaceAll('\n', '\r\n');
    const file = await jobFile(windows(job));
    await change(file);
    expect(await textOf(file)).toBe(windows(withEntry));
  });
});

describe('an editor that writes while a change is under way', () => {
  const edits: [string, (file: string, content: string) => Promise<void>][] = [
    ['over the file', (file, content) => writeFile(file, content)],
    [
      'a new file in its place',
      async (file, content) => {
        await writeFile(`${file}~`, content);
        await rename(`${file}~`, file);
      },
    ],
  ];

  it.each(edits)('%s loses nothing, and neither does the change', async (_, write) => {
    const file = await jobFile();
    let tries = 0;
    const outcome = await change(file, async () => {
      tries += 1;
      if (tries === 1) await write(file, job.replace('x-bay: 4', 'x-bay: 5 # moved\n'));
      return noted;
    });
    expect(tries).toBe(2);
    expect(outcome).toMatchObject({ kind: 'changed', before: { text: expect.stringContaining('x-bay: 5') } });
    expect(await textOf(file)).toBe(withEntry.replace('x-bay: 4', 'x-bay: 5 # moved\n'));
    expect(await beside(file)).toEqual(['job.yaml']);
  });

  it('again and again has the last word', async () => {
    const file = await jobFile();
    let tries = 0;
    const outcome = await change(file, async () => {
      tries += 1;
      await writeFile(file, `${job}\nx-tries: ${tries}\n`);
      return noted;
    });
    expect(messageOf(outcome)).toContain('again and again');
    expect(tries).toBe(5);
    expect(await textOf(file)).toBe(`${job}\nx-tries: 5\n`);
    expect(await beside(file)).toEqual(['job.yaml']);
  });

  it('something wrong is told of it, and nothing is overwritten', async () => {
    const file = await jobFile();
    const outcome = await change(file, async () => {
      await writeFile(file, 'worksheet: [');
      return noted;
    });
    expect(outcome.kind).toBe('problems');
    expect(await textOf(file)).toBe('worksheet: [');
    expect(await beside(file)).toEqual(['job.yaml']);
  });

  it('removes the file is not answered with a new one', async () => {
    const file = await jobFile();
    const outcome = await change(file, async () => {
      await unlink(file);
      return noted;
    });
    expect(messageOf(outcome)).toContain('there is no such file');
    expect(await beside(file)).toEqual([]);
  });
});

describe('a change that cannot be made', () => {
  const unchanged = async (file: string, content: string = job): Promise<void> => {
    expect(await textOf(file)).toBe(content);
    expect(await beside(file)).toEqual(['job.yaml']);
  };

  it('for its own reasons leaves the file as it was', async () => {
    const file = await jobFile();
    const outcome = await change(file, () => ({ troubles: [{ message: 'not today', hint: null }] }));
    expect(messageOf(outcome)).toBe('not today');
    await unchanged(file);
  });

  it('since its place is taken leaves the file as it was', async () => {
    const file = await jobFile();
    const put: Plan = { change: { kind: 'put', at: ['job'], value: text('S1') }, what: 'a job' };
    expect(messageOf(await change(file, () => put))).toContain('a job cannot be added');
    await unchanged(file);
  });

  it('since the job would be wrong afterwards leaves the file as it was', async () => {
    const file = await jobFile();
    const item = braces([['did', text('no such verb')]]);
    const wrong: Plan = { change: { kind: 'append', to: ['log'], items: [item] }, what: 'nonsense' };
    const outcome = await change(file, () => wrong);
    // Places in a text that nobody has seen would help nobody.
    expect(outcome.kind).toBe('trouble');
    const said = outcome.kind === 'trouble' ? outcome.troubles.map(({ message }) => message) : [];
    expect(said).toContain('"did" cannot be "no such verb"');
    await unchanged(file);
  });

  it('in a file that is wrong already leaves it as it was', async () => {
    const broken = job.replace('status: open', 'status: opened');
    const file = await jobFile(broken);
    let asked = false;
    const outcome = await change(file, () => {
      asked = true;
      return noted;
    });
    expect(outcome).toMatchObject({ kind: 'problems', problems: [{ code: 'wrong-value' }] });
    expect(asked).toBe(false);
    await unchanged(file, broken);
  });

  it('since the program itself fails gives the file free', async () => {
    const file = await jobFile();
    const fails = change(file, () => {
      throw new Error('a fault');
    });
    await expect(fails).rejects.toThrow('a fault');
    await unchanged(file);
  });

  it.each([
    ['a job that is not there', 'gone.yaml', 'there is no such file: gone.yaml'],
    ['a folder that is not there', 'gone/job.yaml', 'there is no such file: gone/job.yaml'],
    ['a folder that is a file', 'job.yaml/job.yaml', 'there is no such file'],
    ['standard input', '-', 'standard input'],
    ['links in a circle', 'circle.yaml', 'the system does not let circle.yaml be written (ELOOP)'],
    ['a name that is too long', `${'n'.repeat(300)}.yaml`, '(ENAMETOOLONG)'],
  ])('in %s says so', async (_, name, message) => {
    const file = await jobFile();
    await symlink('circle.yaml', join(dirname(file), 'circle.yaml'));
    expect(messageOf(await change(file, () => noted, name))).toContain(message);
    expect(await beside(file)).toEqual(['circle.yaml', 'job.yaml']);
    expect(await textOf(file)).toBe(job);
  });

  it('in a name that leaves no room for a lock beside it says so', async () => {
    const file = await jobFile();
    const name = `${'n'.repeat(250)}.yaml`;
    await rename(file, join(dirname(file), name));
    expect(messageOf(await change(file, () => noted, name))).toContain('(ENAMETOOLONG)');
    expect(await beside(file)).toEqual([name]);
  });

  it('in a folder of that name says what is wrong', async () => {
    const file = await jobFile();
    await unlink(file);
    await mkdir(file);
    expect(await change(file)).toMatchObject({ kind: 'problems' });
    expect(await beside(file)).toEqual(['job.yaml']);
  });
});

describe('many changes at once', () => {
  it('in one process all arrive', async () => {
    const file = await jobFile();
    const numbers = Array.from({ length: 12 }, (_, index) => index);
    const outcomes = await Promise.all(
      numbers.map((number) =>
        call(file, 'add', 'job.yaml', 'rest', `supply=12.${number + 10}`, '--id', `r-${number}`),
      ),
    );
    expect(outcomes.map(({ code }) => code)).toEqual(numbers.map(() => 0));
    const { snapshots } = parse(await textOf(file)) as { snapshots: { id: string }[] };
    expect(snapshots.map(({ id }) => id).sort()).toEqual(
      ['as-found', ...numbers.map((one) => `r-${one}`)].sort(),
    );
    expect(await beside(file)).toEqual(['job.yaml']);
  });
});
