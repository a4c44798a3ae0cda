import { type Problem, wholeFile } from '../input/problem.ts';
import { tooLarge } from '../input/yaml/decode.ts';
import { NotPlain, TooLarge } from './disk/read-plain.ts';

const notPlain = ({ kind }: NotPlain, file: string): Problem => {
  const hint =
    kind === 'folder'
      ? `name the files in it, such as ${file}/*.yaml`
      : kind === 'pipe'
        ? 'write - in its place to read what another program prints'
        : 'name a plain file';
  return wholeFile('file-unreadable', `this is a ${kind}, not a file`, hint);
};

/**
 * Why a file could not be read at all, in words.
 *
 * @param isPattern whether what was named is a pattern, which no file matches
 */
export const readFailure = (error: unknown, file: string, isPattern = false): Problem => {
  if (error instanceof NotPlain) return notPlain(error, file);
  if (error instanceof TooLarge) return tooLarge(error.size);
  const { code } = error as NodeJS.ErrnoException;
  switch (code) {
    case 'ENOENT':
    case 'ENOTDIR':
      return isPattern
        ? wholeFile('file-not-found', 'no file matches this pattern', 'check the pattern and the folder')
        : wholeFile('file-not-found', 'there is no such file', 'check the name and the folder');
    case 'EACCES':
    case 'EPERM':
      return wholeFile('file-unreadable', 'this file may not be read', 'ask for the right to read it');
    default:
      return wholeFile(
        'file-unreadable',
        `this file cannot be read (${code ?? 'unknown fault'})`,
        'see whether it is a plain file',
      );
  }
};
