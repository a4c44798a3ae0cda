import { createInterface } from 'node:readline';
import { clean } from '../report/clean.ts';

/** Asks one question after another, on a terminal or over a pipe. */
export interface Prompter {
  readonly isTerminal: boolean;
  /**
   * The answer without its line end, or null once there are no more: the input ended, or somebody pressed Ctrl-C or
   * Ctrl-D. Asked again it stays null.
   */
  readonly ask: (question: string) => Promise<string | null>;
  readonly close: () => void;
}

/**
 * Questions and answers by lines. Over a pipe an answer is printed after its question, so that what was asked and
 * said can be read afterwards.
 */
export const openPrompter = (
  input: NodeJS.ReadableStream,
  output: NodeJS.WritableStream,
  isTerminal: boolean,
): Prompter => {
  const reader = createInterface({
    input,
    ...(isTerminal ? { output } : {}),
    terminal: isTerminal,
    historySize: 0,
  });
  const lines: string[] = [];
  let waiting: ((line: string | null) => void) | null = null;
  let ended = false;
  const give = (line: string | null): void => {
    const take = waiting;
    waiting = null;
    take?.(line);
  };
  reader.on('line', (line) => {
    if (waiting) give(line);
    else lines.push(line);
  });
  reader.on('close', () => {
    ended = true;
    give(null);
  });
  reader.on('SIGINT', () => reader.close());

  const next = (): Promise<string | null> => {
    const line = lines.shift();
    if (line !== undefined) return Promise.resolve(line);
    if (ended) return Promise.resolve(null);
    return new Promise((resolve) => {
      waiting = resolve;
    });
  };
  return {
    isTerminal,
    ask: async (question) => {
      if (ended && lines.length === 0) return null;
      if (isTerminal) {
        reader.setPrompt(question);
        reader.prompt();
      } else {
        output.write(question);
      }
      const line = await next();
      if (line === null) output.write('\n');
      else if (!isTerminal) output.write(`${clean(line)}\n`);
      return line;
    },
    close: () => reader.close(),
  };
};
