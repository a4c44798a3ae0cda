// Sessions of `fill` and `new` in one process, with every answer typed as at a terminal: what was asked, what was typed,
// and how long it took from the answer to the next question.
import { readFile } from 'node:fs/promises';
import { readPlain } from '../../../src/shell/disk/read-plain.ts';
import { run } from '../../../src/shell/run.ts';

interface Script {
  readonly argv: readonly string[];
  /** The folder that it runs in. */
  readonly cwd: string;
  readonly env: Readonly<Record<string, string>>;
  /** What counts as now, in milliseconds since 1970. */
  readonly now: number;
  /**
   * Answers by the beginning of their question; of several each is given once, the last again and again. A question that
   * none fits is answered with Enter.
   */
  readonly answers: Readonly<Record<string, string | readonly string[]>>;
}

/** One question: its text, the answer without Enter, and the milliseconds and CPU time until the next question. */
interface Turn {
  readonly question: string;
  readonly answer: string;
  waited: number;
  cpu: number;
}

const [, , file = ''] = process.argv;
const { argv, cwd, env, now, answers } = JSON.parse(await readFile(file, 'utf8')) as Script;
const turns: Turn[] = [];
const counts = new Map<string, number>();
let printed = '';
let since = 0;
let cpuSince = process.cpuUsage();

const answerTo = (question: string): string => {
  const asked = question.trim();
  const key = Object.keys(answers).find((one) => asked.startsWith(one));
  if (key === undefined) return '';
  const given = [answers[key] ?? ''].flat();
  const count = counts.get(key) ?? 0;
  counts.set(key, count + 1);
  return given[Math.min(count, given.length - 1)] ?? '';
};

const code = await run(argv, {
  cwd,
  env,
  zone: 'UTC',
  now: () => now,
  stdout: {
    write: (text) => {
      printed += text;
    },
    isTerminal: true,
    columns: 80,
  },
  stderr: {
    write: (text) => {
      printed += text;
    },
  },
  readStdin: async () => new Uint8Array(),
  readFile: async (path) => readPlain(path),
  isInteractive: true,
  openPrompter: () => ({
    isTerminal: true,
    ask: async (question: string) => {
      const last = turns.at(-1);
      if (last) {
        last.waited = performance.now() - since;
        const { user, system } = process.cpuUsage(cpuSince);
        last.cpu = (user + system) / 1000;
      }
      const answer = answerTo(question);
      turns.push({ question: question.trim(), answer, waited: 0, cpu: 0 });
      since = performance.now();
      cpuSince = process.cpuUsage();
      return answer;
    },
    close: () => undefined,
  }),
});
console.log(JSON.stringify({ code, turns, printed }));
