import { describe, expect, it } from 'vitest';
import { emptyJob, type Folder, makeFolder, refusal } from '../support/folder.ts';

const job = (text = emptyJob): Promise<Folder> => makeFolder({ 's4.yaml': text });
const now = ['--as-of', '2026-03-02T18:00'];
const undo = (folder: Folder, ...flags: readonly string[]) => folder.run(['undo', 's4.yaml', ...flags]);

describe('undo', () => {
  it('takes back one change after the other, and says which', async () => {
    const folder = await job();
    await folder.run(['add', 's4.yaml', 'key-on', 'supply=12.2', 'lamp=on', 'code=C1A21', ...now]);
    const afterAdd = await folder.read('s4.yaml');
    await folder.run(['log', 's4.yaml', 'replaced', 'sensor.LR', 'linkage.LR', ...now]);
    expect(await undo(folder)).toEqual({
      code: 0,
      stdout: 's4.yaml: took back replaced sensor.LR, linkage.LR; 1 more on record\n',
      stderr: '',
    });
    expect(await folder.read('s4.yaml')).toBe(afterAdd);
    expect((await undo(folder)).stdout).toBe(
      's4.yaml: took back snapshot key-on (1 reading, lamp, 1 code)\n',
    );
    expect(await folder.read('s4.yaml')).toBe(emptyJob);
    expect(await refusal(folder, ['undo', 's4.yaml'])).toContain(
      'nothing is on record that could be taken back',
    );
  });

  it('takes back an answer of a session', async () => {
    const folder = await job();
    await folder.run(['fill', 's4.yaml', ...now], { stdin: 'level\n' });
    expect(await folder.read('s4.yaml')).toContain('floor: level');
    expect((await undo(folder)).stdout).toBe('s4.yaml: took back floor level of key-on\n');
    expect(await folder.read('s4.yaml')).toBe(emptyJob);
  });

  it('prints nothing with --quiet', async () => {
    const folder = await job();
    await folder.run(['log', 's4.yaml', 'cleared', ...now]);
    expect(await undo(folder, '--quiet')).toEqual({ code: 0, stdout: '', stderr: '' });
    expect(await folder.read('s4.yaml')).toBe(emptyJob);
  });

  it('knows nothing of a fresh file, nor of what was written by hand', async () => {
    const folder = await job();
    expect(await refusal(folder, ['undo', 's4.yaml'])).toContain(
      'only what add, fill, log, fix, waive and packs upgrade wrote',
    );
    await folder.run(['log', 's4.yaml', 'cleared', ...now]);
    await folder.write('s4.yaml', `${await folder.read('s4.yaml')}# by hand\n`);
    const said = (await refusal(folder, ['undo', 's4.yaml'])).replace(/\s+/gu, ' ');
    expect(said).toContain('s4.yaml has changed since the last change on record (cleared codes)');
  });

  it('keeps line ends and marks of a file to the byte', async () => {
    const windows = `\ufeff${emptyJob.replaceAll('\n', '\r\n')}`;
    const folder = await job(windows);
    expect((await folder.run(['log', 's4.yaml', 'cleared', ...now])).code).toBe(0);
    expect(await folder.read('s4.yaml')).toMatch(/\r\nlog:\r\n {2}- \{.*\}\r\n$/u);
    await undo(folder);
    expect(await folder.read('s4.yaml')).toBe(windows);
  });

  it.each([
    ['nothing.yaml', 'there is no such file: nothing.yaml'],
    ['-', 'standard input cannot be changed'],
  ])('of %s is refused: %s', async (file, message) => {
    expect(await refusal(await job(), ['undo', file])).toContain(message);
  });
});
