import { type Problem, wholeFile } from '../input/problem.ts';

/**
 * Why a file could not be read at all, in words.
 *
 * @param isPattern whether what was named is a pattern, which no file matches
 */
export const readFailure = (error: unknown, file: string, isPattern = false): Problem => {
  const { code } = error as NodeJS.ErrnoException;
  switch (code) {
    case 'ENOENT':
    case 'ENOTDIR':
      return isPattern
        ? wholeFile('file-not-found', 'no file matches this pattern', 'check the pattern and the folder')
        : wholeFile('file-not-found', 'there is no such file', 'check the name and the folder');
    case 'EISDIR':
      return wholeFile(
        'file-unreadable',
        'this is a folder, not a file',
        `name the files in it, such as ${file}/*.yaml`,
      );
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
