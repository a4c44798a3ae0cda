import { execFile } from 'node:child_process';
import { accessSync, constants } from 'node:fs';
import { chmod, mkdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { scripts } from '../../src/shell/completion/scripts.ts';
import { projectRoot } from './run.ts';

/** What a shell made of a line and the completion key. */
export interface Completed {
  readonly lines: readonly string[];
  readonly stderr: string;
  /** All that came to the terminal, where the shell had one. */
  readonly screen: string;
}

/** A folder with a `cornerwise` to be found on the path, and where a shell finds it as its own. */
export interface Place {
  readonly cwd: string;
  readonly home: string;
}

const onPath = (program: string): boolean =>
  (process.env.PATH ?? '').split(':').some((folder) => {
    try {
      accessSync(join(folder, program), constants.X_OK);
      return true;
    } catch {
      return false;
    }
  });

/** Those shells of this machine that completion can be tried in. */
export const presentShells = (['bash', 'zsh', 'fish'] as const).filter(onPath);

/** Puts a `cornerwise` on the path of a place: the real one, or whatever a test puts there. */
export const putProgram = async ({ home }: Place, script?: string): Promise<void> => {
  const program = join(home, 'bin/cornerwise');
  await mkdir(join(home, 'bin'), { recursive: true });
  const real = `exec "${process.execPath}" "${join(projectRoot, 'bin/cornerwise.js')}" "$@"`;
  await writeFile(program, `#!/bin/sh\n${script ?? real}\n`);
  await chmod(program, 0o755);
};

const runShell = (shell: string, args: readonly string[], line: string, place: Place): Promise<Completed> =>
  new Promise((resolve) => {
    const env = {
      PATH: `${join(place.home, 'bin')}:${process.env.PATH}`,
      HOME: place.home,
      LC_ALL: 'C.UTF-8',
      TERM: 'dumb',
      LINE: line,
    };
    const options = { cwd: place.cwd, env, encoding: 'utf8', timeout: 50_000 } as const;
    execFile(shell, [...args], options, (_, stdout, stderr) =>
      resolve({ lines: stdout.split('\n').slice(0, -1), stderr, screen: '' }),
    );
  });

const writeScript = async (shell: keyof typeof scripts, place: Place): Promise<string> => {
  const path = join(place.home, `completion.${shell}`);
  await writeFile(path, scripts[shell]);
  return path;
};

/** The function called as bash calls it; lines that say what bash was asked to do with the answer begin with `!`. */
const inBash = async (line: string, place: Place): Promise<Completed> => {
  const driver = `source "$1"
compopt() { printf '!%s\\n' "$*"; }
COMP_WORDBREAKS=$' \\t\\n"\\'@><=;|&(:' COMP_LINE=$LINE COMP_POINT=\${#LINE}
read -ra COMP_WORDS <<<"$LINE"
COMP_CWORD=$(( \${#COMP_WORDS[@]} - 1 ))
_cornerwise || echo "!failed"
(( \${#COMPREPLY[@]} )) && printf '%s\\n' "\${COMPREPLY[@]}"`;
  return runShell('bash', ['--norc', '-c', driver, 'bash', await writeScript('bash', place)], line, place);
};

/**
 * A zsh at a terminal of its own is given the line and the completion key; what then stands on its line is the
 * answer.
 */
const inZsh = async (line: string, place: Place): Promise<Completed> => {
  const typed = join(place.home, 'typed');
  const inner = `unset zle_bracketed_paste; PS1=; setopt no_beep no_always_last_prompt
autoload -Uz compinit; compinit -u -D
source "$HOME/completion.zsh" 2>"$HOME/zsh-errors"
keep() { print -r -- "$BUFFER" > "$HOME/typed.new"; mv "$HOME/typed.new" "$HOME/typed"; }
zle -N keep
bindkey '^I' complete-word
bindkey '^X' keep
touch "$HOME/ready"
`;
  const driver = `zmodload zsh/zpty
screen= part=
rm -f "$HOME/typed" "$HOME/ready"
zpty shell zsh -f -i
zpty -w shell 'source "$HOME/inner.zsh"'
wait_for() { while [[ ! -e $1 ]]; do while zpty -r -t shell part; do screen+=$part; done; sleep 0.05; done }
wait_for "$HOME/ready"
zpty -n -w shell "$LINE"$'\\t\\x18'
wait_for "$HOME/typed"
while zpty -r -t shell part; do screen+=$part; done
zpty -d shell
cat "$HOME/zsh-errors" >&2
print -r -- "$screen"`;
  await writeScript('zsh', place);
  await writeFile(join(place.home, 'inner.zsh'), inner);
  const { lines, stderr } = await runShell('zsh', ['-f', '-c', driver], line, place);
  const answer = (await readFile(typed, 'utf8')).replace(/\n$/u, '');
  return { lines: [answer], stderr, screen: lines.join('\n') };
};

/** Each candidate with a tab and what it is. */
const inFish = async (line: string, place: Place): Promise<Completed> =>
  runShell(
    'fish',
    ['--no-config', '-c', 'source $argv[1]; complete -C "$LINE"', await writeScript('fish', place)],
    line,
    place,
  );

/** What each shell makes of a line. */
export const complete = { bash: inBash, zsh: inZsh, fish: inFish } as const;
