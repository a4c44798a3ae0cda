import { cp, mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { projectRoot, runCli } from './run.ts';

/** A command with what it printed: standard output, then errors, then the exit code where it is not 0. */
export interface RecordedCommand {
  readonly command: string;
  readonly output: string;
}

/** Splits a command line at spaces; quotes keep words together. No shell is involved. */
export const splitCommand = (command: string): string[] =>
  [...command.matchAll(/"([^"]*)"|'([^']*)'|(\S+)/gu)].map(([, a, b, c]) => a ?? b ?? c ?? '');

/** The commands of a recorded console example: `$ cornerwise …` lines and what follows each. */
export const parseRecording = (text: string): RecordedCommand[] =>
  text
    .split(/^\$ /mu)
    .slice(1)
    .map((part) => {
      const end = part.indexOf('\n');
      return { command: part.slice(0, end), output: part.slice(end + 1).trimEnd() };
    });

/** A folder of its own for recorded commands, with the examples and some packs in it; commands may write there. */
export const makeWorkspace = async (): Promise<{
  readonly cwd: string;
  readonly remove: () => Promise<void>;
}> => {
  const cwd = await mkdtemp(join(tmpdir(), 'cornerwise-'));
  await cp(join(projectRoot, 'examples'), join(cwd, 'examples'), { recursive: true });
  await cp(join(projectRoot, 'tests/scenarios/rules'), join(cwd, 'rules'), { recursive: true });
  return { cwd, remove: () => rm(cwd, { recursive: true, force: true }) };
};

/** `printf 'a\nb\n' | cornerwise …`: what is printed, and the rest. */
const piped = (command: string): { readonly stdin: string; readonly rest: string } => {
  const [, text, rest] = /^printf '([^']*)' \| (.*)$/su.exec(command) ?? [];
  return text === undefined || rest === undefined
    ? { stdin: '', rest: command }
    : { stdin: text.replaceAll('\\n', '\n'), rest };
};

const print = async (
  argv: readonly string[],
  stdin: string,
  cwd: string,
): Promise<{ code: number; text: string }> => {
  const [program, ...words] = argv;
  if (program === 'cat') {
    const text = await readFile(join(cwd, words[0] ?? ''), 'utf8');
    return { code: 0, text: text.replaceAll(projectRoot, '…') };
  }
  if (program !== 'cornerwise')
    throw new Error(`not a command of a recorded console example: ${argv.join(' ')}`);
  const env = { XDG_STATE_HOME: join(cwd, '.state') };
  const { code, stdout, stderr } = await runCli(words, { cwd, stdin, env });
  // The path of this checkout is left out of recordings.
  return { code, text: `${stdout}${stderr}`.replaceAll(projectRoot, '…') };
};

/**
 * Runs one recorded command in a workspace. `printf '…' |` before it is its standard input, `| head -N` keeps its first
 * lines and `| tail -N` its last; `cat FILE` shows a file. No shell is involved.
 */
export const runRecorded = async (command: string, cwd: string): Promise<string> => {
  const { stdin, rest } = piped(command);
  const [, call = '', end, count] = /^(.*?)(?: \| (head|tail) -(\d+))?$/su.exec(rest) ?? [];
  const { code, text } = await print(splitCommand(call), stdin, cwd);
  const lines = text.trimEnd().split('\n');
  const kept =
    end === undefined ? lines : end === 'head' ? lines.slice(0, Number(count)) : lines.slice(-Number(count));
  return [...kept, ...(code === 0 || end !== undefined ? [] : [`[exit ${code}]`])].join('\n').trimEnd();
};
