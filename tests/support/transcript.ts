import { runCli } from './run.ts';

/** A command of a transcript with all that it printed: standard output, then errors, then the exit code if it is not 0. */
export interface Entry {
  readonly command: string;
  readonly output: string;
}

/** Splits a command line at spaces; quotes keep words together. No shell is involved. */
export const splitCommand = (command: string): string[] =>
  [...command.matchAll(/"([^"]*)"|'([^']*)'|(\S+)/gu)].map(([, a, b, c]) => a ?? b ?? c ?? '');

/** `$ cornerwise …` lines and what follows each. */
export const parseTranscript = (text: string): Entry[] =>
  text
    .split(/^\$ /mu)
    .slice(1)
    .map((part) => {
      const end = part.indexOf('\n');
      return { command: part.slice(0, end), output: part.slice(end + 1).trimEnd() };
    });

/** Runs one command of a transcript; `| head -N` keeps its first lines. */
export const runEntry = async (command: string): Promise<string> => {
  const [call = '', head] = command.split(' | head -');
  const [program, ...argv] = splitCommand(call);
  if (program !== 'cornerwise') throw new Error(`not a cornerwise command: ${command}`);
  const { code, stdout, stderr } = await runCli(argv);
  const lines = `${stdout}${stderr}`.trimEnd().split('\n');
  const kept = head === undefined ? lines : lines.slice(0, Number(head));
  return [...kept, ...(code === 0 || head !== undefined ? [] : [`[exit ${code}]`])].join('\n').trimEnd();
};
