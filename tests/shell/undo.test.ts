import { readFile, rm } from 'node:fs/promises';
import { join } from 'node:path';
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

describe('the kept versions of a file', () => {
  /** A job that was added to, edited by hand, and logged in. */
  const changed = async (): Promise<{ folder: Folder; texts: string[] }> => {
    const folder = await job();
    const texts = [emptyJob];
    const keep = async (): Promise<void> => {
      texts.push(await folder.read('s4.yaml'));
    };
    await folder.run(['add', 's4.yaml', 'key-on', 'supply=12.2', ...now]);
    await keep();
    await folder.write('s4.yaml', (await folder.read('s4.yaml')).replace('Sits low', 'Sits very low'));
    await keep();
    await folder.run(['log', 's4.yaml', 'replaced', 'sensor.LR', ...now]);
    await keep();
    return { folder, texts };
  };
  const list = async (folder: Folder): Promise<string[]> => {
    const { code, stdout, stderr } = await undo(folder, '--list');
    expect([code, stderr]).toEqual([0, '']);
    // The time of an edit by hand is that of the disk.
    return stdout
      .trimEnd()
      .replaceAll(/\d{4}-\d\d-\d\d \d\d:\d\d/gu, 'TIME')
      .split('\n');
  };

  it('are listed, the newest first, with what made them', async () => {
    const { folder } = await changed();
    const before = await folder.read('s4.yaml');
    expect(await list(folder)).toEqual([
      's4.yaml: 4 versions, the newest first: the file as it is',
      '  4  TIME  log  replaced sensor.LR                          +2 lines',
      '  3  TIME       edited by other hands                    +1 -1 lines',
      '  2  TIME  add  snapshot key-on (1 reading)                 +6 lines',
      '  1  TIME       as it was before',
    ]);
    expect(await folder.read('s4.yaml')).toBe(before);
  });

  it('are brought back one by one, and none is lost', async () => {
    const { folder, texts } = await changed();
    for (const [index, text] of texts.entries()) {
      const { code, stdout } = await undo(folder, '--to', String(index + 1));
      expect(code).toBe(0);
      expect(stdout).toContain(`s4.yaml: brought back version ${index + 1}; it was version`);
      expect(await folder.read('s4.yaml')).toBe(text);
    }
    expect(await list(folder)).toHaveLength(1 + 4 + 4);
  });

  it('are brought back by a change that is taken back like another', async () => {
    const { folder, texts } = await changed();
    await undo(folder, '--to', '1');
    expect((await undo(folder)).stdout).toBe('s4.yaml: took back return to version 1; 1 more on record\n');
    expect(await folder.read('s4.yaml')).toBe(texts[3]);
    expect((await undo(folder)).stdout).toBe('s4.yaml: took back replaced sensor.LR\n');
    expect(await folder.read('s4.yaml')).toBe(texts[2]);
    expect(await refusal(folder, ['undo', 's4.yaml'])).toContain('cornerwise undo s4.yaml --list');
  });

  it('hold what other hands made of the file since, before another is brought back', async () => {
    const { folder, texts } = await changed();
    await folder.write('s4.yaml', Uint8Array.of(0xff, 0xfe, 0x00));
    expect((await list(folder))[1]).toContain('5  TIME       edited by other hands');
    expect((await undo(folder, '--to', '4')).stdout).toBe(
      's4.yaml: brought back version 4; it was version 5 until now\n',
    );
    expect(await folder.read('s4.yaml')).toBe(texts[3]);
    await undo(folder, '--to', '5');
    expect(await readFile(join(folder.path, 's4.yaml'))).toEqual(Buffer.from([0xff, 0xfe, 0x00]));
  });

  it('outlast the file', async () => {
    const { folder, texts } = await changed();
    await rm(join(folder.path, 's4.yaml'));
    expect((await list(folder))[0]).toBe('s4.yaml: 4 versions of a file that is gone');
    expect(await refusal(folder, ['undo', 's4.yaml'])).toContain('there is no such file');
    expect(await refusal(folder, ['undo', 's4.yaml', '--to', '9'])).toContain('is not kept');
    expect((await undo(folder, '--to', '3')).stdout).toBe(
      's4.yaml: brought back version 3; the file was gone\n',
    );
    expect(await folder.read('s4.yaml')).toBe(texts[2]);
    expect(await list(folder)).toHaveLength(1 + 5);
  });

  it('are told where one of them is the file already, or not kept', async () => {
    const { folder } = await changed();
    expect(await undo(folder, '--to', '4')).toEqual({
      code: 0,
      stdout: 's4.yaml: is version 4 already; nothing was written\n',
      stderr: '',
    });
    const said = await refusal(folder, ['undo', 's4.yaml', '--to', '5']);
    expect(said).toContain('version 5 of s4.yaml is not kept');
    expect(said).toContain('kept are 1 to 4');
  });

  it.each([
    [['--to', 'one'], 'Give the number of a version'],
    [['--to', '0'], 'Give the number of a version'],
    [['--to', '1', '--list'], 'cannot be used with'],
  ])('are not asked for by %j', async (flags, says) => {
    const { folder } = await changed();
    expect(await refusal(folder, ['undo', 's4.yaml', ...flags])).toContain(says);
  });

  it('are none where nothing is on record', async () => {
    const folder = await job();
    expect(await refusal(folder, ['undo', 's4.yaml', '--list'])).toContain('nothing is on record');
    expect(await refusal(folder, ['undo', 'none.yaml', '--list'])).toContain('there is no such file');
    expect(await refusal(folder, ['undo', '-', '--to', '1'])).toContain('standard input cannot be changed');
    expect(await refusal(folder, ['undo', '-', '--list'])).toContain('standard input cannot be changed');
  });
});
