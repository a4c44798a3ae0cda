import { Argument, type Command } from 'commander';
import { type ShellName, scripts, shells } from '../completion/scripts.ts';
import { shapeOf } from '../completion/shape.ts';
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
      const lines = await import('../actions/actions.ts')
        .then(({ complete }) => complete(shell, words, shapeOf(program), io))
        .catch(() => []);
      io.stdout.write(lines.map((line) => `${line}\n`).join(''));
    });
};
