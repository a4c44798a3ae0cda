import { Argument, type Command } from 'commander';
import { bashAnswer, plainAnswer, powershellAnswer } from '../completion/answers.ts';
import { readBashLine } from '../completion/bash-line.ts';
import type { Wanted } from '../completion/candidate.ts';
import { listFiles } from '../completion/list-files.ts';
import { readNames } from '../completion/read-names.ts';
import { type ShellName, scripts, shells } from '../completion/scripts.ts';
import { type CommandShape, shapeOf } from '../completion/shape.ts';
import { wanted } from '../completion/wanted.ts';
import type { Io } from '../io.ts';
import type { Shell } from '../shell.ts';

const help = `
Load it in each new shell, by a line in the shell's own start file:
  bash        source <(cornerwise completion bash)
              in ~/.bashrc
  zsh         source <(cornerwise completion zsh)
              in ~/.zshrc, after compinit; or keep the script as _cornerwise in
              a folder of $fpath
  fish        cornerwise completion fish > ~/.config/fish/completions/cornerwise.fish
              once; fish finds it there
  powershell  cornerwise completion powershell | Out-String | Invoke-Expression
              in the file that $PROFILE names`;

/** Files as this program lists them, for shells whose own lists put no kind of file first. */
const filesFor = async (found: Wanted, typed: string, io: Io): Promise<readonly string[] | null> =>
  found.kind === 'files' ? listFiles(typed, io) : null;

/** A line a candidate, as a shell's script wants it. */
const answer = async (
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

/** `cornerwise completion SHELL`, and the hidden command that its scripts call. */
export const addCompletion = (program: Command, { io }: Shell): void => {
  program
    .command('completion')
    .description('Print the script by which a shell completes what is typed after cornerwise.')
    .addArgument(new Argument('<shell>', 'which shell').choices([...shells]))
    .addHelpText('after', help)
    .action((shell: ShellName) => io.stdout.write(scripts[shell]));
  program
    .command('complete', { hidden: true })
    .argument('<shell>')
    .argument('[words...]')
    .allowUnknownOption()
    .action(async (shell: string, words: string[]) => {
      // Whatever goes wrong, a prompt is no place to hear of it.
      const lines = await answer(shell, words, shapeOf(program), io).catch(() => []);
      io.stdout.write(lines.map((line) => `${line}\n`).join(''));
    });
};
