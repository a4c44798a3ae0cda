import { bashAnswer, plainAnswer, powershellAnswer } from '../completion/answers.ts';
import { readBashLine } from '../completion/bash-line.ts';
import type { Wanted } from '../completion/candidate.ts';
import { listFiles } from '../completion/list-files.ts';
import { readNames } from '../completion/read-names.ts';
import type { CommandShape } from '../completion/shape.ts';
import { wanted } from '../completion/wanted.ts';
import type { Io } from '../io.ts';

/** Files as this program lists them, for shells whose own lists put no kind of file first. */
const filesFor = async (found: Wanted, typed: string, io: Io): Promise<readonly string[] | null> =>
  found.kind === 'files' ? listFiles(typed, io) : null;

/** `cornerwise complete`: a line a candidate, as a shell's script wants it. */
export const complete = async (
  shell: string,
  words: readonly string[],
  program: CommandShape,
  io: Io,
): Promise<string[]> => {
  const names = readNames(io);
  switch (shell) {
    case 'bash': {
      const [line = '', breaks = ''] = words;
      const read = readBashLine(line, breaks);
      const found = await wanted(read.words, program, names);
      return bashAnswer(found, read, await filesFor(found, read.words.at(-1) ?? '', io));
    }
    case 'powershell': {
      const typed = words.map((word) => word.replace(/^=/u, ''));
      const found = await wanted(typed, program, names);
      return powershellAnswer(found, await filesFor(found, typed.at(-1) ?? '', io));
    }
    default:
      return plainAnswer(await wanted(words, program, names));
  }
};
