import { readdir, unlink, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { takeBack } from '../../../src/shell/save/take-back.ts';
import { beside, call, ioBeside, job, jobFile, textOf } from './job-file.ts';

const add = (file: string, volts = '12.2') => call(file, 'add', 'job.yaml', 'rest', `supply=${volts}`);
const log = (file: string) => call(file, 'log', 'job.yaml', 'replaced', 'sensor.LR', 'linkage.LR');
const undo = (file: string) => call(file, 'undo', 'job.yaml');

/** All records that the program keeps of what it did to a file. */
const records = async (file: string): Promise<string[]> => {
  const folder = join(dirname(file), 'state', 'cornerwise', 'undo');
  return (await readdir(folder)).map((name) => join(folder, name));
};

describe('undo', () => {
  it.each([
    ['by hand', job],
    ['with the line ends of Windows', `${job}\n`.replaceAll('\n', '\r\n')],
    ['with a byte order mark', `\ufeff${job}`],
    ['with wide characters', job.replace('Left rear', '左后 🚐')],
  ])('takes one change after the other back, to the byte, in a file %s', async (_, before) => {
    const file = await jobFile(before);
    const steps = [before];
    for (const change of [add, log, add]) {
      expect((await change(file)).code).toBe(0);
      steps.push(await textOf(file));
    }
    expect(new Set(steps).size).toBe(4);
    for (const [left, step] of [...steps.slice(0, 3).entries()].reverse()) {
      const { code, stdout } = await undo(file);
      expect(code).toBe(0);
      expect(stdout.includes(`${left} more on record`)).toBe(left > 0);
      expect(await textOf(file)).toBe(step);
    }
    const { code, stderr } = await undo(file);
    expect([code, stderr]).toEqual([2, expect.stringContaining('nothing is on record')]);
    expect(await textOf(file)).toBe(before);
    expect(await beside(file)).toEqual(['job.yaml']);
    // Nothing is lost by it: each version can be brought back.
    for (const [index, step] of steps.entries()) {
      expect((await call(file, 'undo', 'job.yaml', '--to', String(index + 1))).code).toBe(0);
      expect(await textOf(file)).toBe(step);
    }
  });

  it('says what it took back', async () => {
    const file = await jobFile();
    await log(file);
    expect((await undo(file)).stdout).toContain('took back replaced sensor.LR, linkage.LR');
    await add(file);
    expect((await undo(file)).stdout).toContain('took back snapshot rest (1 reading)');
  });

  it.each([
    ['elsewhere', (mine: string) => `${mine}\n# edited\n`, 'has changed since the last change on record'],
    [
      'within what was added',
      (mine: string) => mine.replace('12.2 V', '12.9 V'),
      'has changed since the last change on record',
    ],
    // Then the change is not in the file, and there is nothing to take back.
    ['to what was there before', () => job, 'nothing is on record'],
  ])('leaves a file alone that somebody else has changed since, %s', async (_, edit, says) => {
    const file = await jobFile();
    await add(file);
    const mine = await textOf(file);
    const edited = edit(mine);
    expect(edited).not.toBe(mine);
    await writeFile(file, edited);
    const { code, stderr } = await undo(file);
    expect(code).toBe(2);
    expect(stderr.replace(/\s+/gu, ' ')).toContain(says);
    expect(await textOf(file)).toBe(edited);
    expect(await beside(file)).toEqual(['job.yaml']);
  });

  it('takes back what came after the edit of another, and nothing before it', async () => {
    const file = await jobFile();
    await add(file);
    const edited = `${await textOf(file)}\n# edited\n`;
    await writeFile(file, edited);
    await log(file);
    expect((await undo(file)).code).toBe(0);
    expect(await textOf(file)).toBe(edited);
    expect((await undo(file)).code).toBe(2);
    expect(await textOf(file)).toBe(edited);
  });

  it('works again once the edit of another is gone', async () => {
    const file = await jobFile();
    await add(file);
    const mine = await textOf(file);
    await writeFile(file, `${mine}\n# edited\n`);
    await undo(file);
    await writeFile(file, mine);
    expect((await undo(file)).code).toBe(0);
    expect(await textOf(file)).toBe(job);
  });

  it('goes on with a new change after one was taken back', async () => {
    const file = await jobFile();
    await add(file);
    const first = await textOf(file);
    await log(file);
    await undo(file);
    await add(file, '12.9');
    await undo(file);
    expect(await textOf(file)).toBe(first);
    await undo(file);
    expect(await textOf(file)).toBe(job);
  });

  it.each([
    ['cannot be read', () => '{'],
    ['leads elsewhere', (was: string) => was.replace(/"at":\d+/u, '"at":3')],
    ['reaches beyond the file', (was: string) => was.replace(/"length":\d+/u, '"length":99999')],
    ['goes backwards', (was: string) => was.replace(/"length":(\d+)/u, '"length":-$1')],
  ])('changes nothing where the record %s', async (_, spoil) => {
    const file = await jobFile();
    await add(file);
    const mine = await textOf(file);
    for (const path of await records(file)) await writeFile(path, spoil(await textOf(path)));
    expect((await undo(file)).code).toBe(2);
    expect(await textOf(file)).toBe(mine);
  });

  it('keeps a change that could not be put on record, and says that there is none', async () => {
    const file = await jobFile();
    await writeFile(join(dirname(file), 'state'), 'a file in the way');
    expect((await add(file)).code).toBe(0);
    expect(await textOf(file)).toContain('12.2');
    expect((await undo(file)).stderr).toContain('nothing is on record');
  });

  it('says so where the file is gone', async () => {
    const file = await jobFile();
    await add(file);
    await unlink(file);
    const { code, stderr } = await undo(file);
    expect([code, stderr]).toEqual([2, expect.stringContaining('there is no such file')]);
    expect(await beside(file)).toEqual([]);
  });

  it('has nothing to do with standard input', async () => {
    const file = await jobFile();
    expect(await takeBack('-', ioBeside(file))).toMatchObject({ kind: 'trouble' });
  });
});
