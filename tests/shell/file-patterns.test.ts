import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { isPattern, matching, patternParts } from '../../src/shell/file-patterns.ts';
import { makeFolder } from '../support/folder.ts';

describe('the folder and the pattern below it', () => {
  it.each([
    ['win32', 'jobs\\*.yaml', 'jobs', '*.yaml'],
    ['win32', 'C:\\shop\\jobs\\s?.yaml', 'C:/shop/jobs', 's?.yaml'],
    ['win32', 'D:\\*.yaml', 'D:/', '*.yaml'],
    ['win32', '..\\jobs\\**\\*.yaml', '../jobs', '**/*.yaml'],
    ['win32', '\\\\server\\shop\\*.yaml', '//server/shop', '*.yaml'],
    ['win32', 'jobs/{a,b}\\*.yaml', 'jobs', '{a,b}/*.yaml'],
    ['linux', 'jobs/*.yaml', 'jobs', '*.yaml'],
    ['linux', '/*.yaml', '/', '*.yaml'],
    ['linux', '*.yaml', '', '*.yaml'],
    ['linux', 'jobs/\\[1\\]/*.yaml', 'jobs', '\\[1\\]/*.yaml'],
  ] as const)('on %s of %s are %s and %s', (platform, name, folder, pattern) => {
    expect(patternParts(name, platform)).toEqual({ folder, pattern });
  });
});

describe('files by a pattern', () => {
  const files = { 'shop/a.yaml': '', 'shop/b.yaml': '', 'shop/[1]/c.yaml': '', 'd.yaml': '' };

  it.each([
    ['win32', 'shop\\*.yaml', ['shop/a.yaml', 'shop/b.yaml']],
    ['win32', '.\\shop\\*.yaml', ['shop/a.yaml', 'shop/b.yaml']],
    ['win32', 'shop\\**\\c.yaml', ['shop/[1]/c.yaml']],
    ['linux', 'shop/{b,a}.yaml', ['shop/a.yaml', 'shop/b.yaml']],
    ['linux', 'shop/\\[1\\]/*.yaml', ['shop/[1]/c.yaml']],
    ['linux', '?.yaml', ['d.yaml']],
    ['linux', 'nowhere/*.yaml', []],
  ] as const)('on %s by %s are %j', async (platform, name, found) => {
    const folder = await makeFolder(files);
    expect(await isPattern(name, platform)).toBe(true);
    expect(await matching(name, folder.path, platform)).toEqual(found);
  });

  it('keep a whole path whole, and one from above as it was typed', async () => {
    const folder = await makeFolder(files);
    expect(await matching(`${folder.path}/?.yaml`, '/')).toEqual([join(folder.path, 'd.yaml')]);
    expect(await matching('../?.yaml', join(folder.path, 'shop'))).toEqual(['../d.yaml']);
  });

  it('a backslash is no separator elsewhere', async () => {
    expect(await isPattern('jobs\\*.yaml', 'linux')).toBe(false);
    expect(await isPattern('C:\\jobs\\s7.yaml', 'win32')).toBe(false);
  });
});
