import { resolve } from 'node:path';
import { Command, CommanderError } from 'commander';
import manifest from '../../package.json' with { type: 'json' };
import { clean } from '../report/clean.ts';
import { addAdd } from './commands/add.ts';
import { addCheck } from './commands/check.ts';
import { addCompletion } from './commands/completion.ts';
import { addFill } from './commands/fill.ts';
import { addFix } from './commands/fix.ts';
import { addLog } from './commands/log.ts';
import { addNew } from './commands/new.ts';
import { addNext } from './commands/next.ts';
import { addPacks } from './commands/packs.ts';
import { addSchema } from './commands/schema.ts';
import { addSweep } from './commands/sweep.ts';
import { addUndo } from './commands/undo.ts';
import { addWaive } from './commands/waive.ts';
import { isFolder } from './disk/on-disk.ts';
import type { Io } from './io.ts';
import { type ExitCode, exitCodes, type Shell } from './shell.ts';

const examples = `
Examples:
  cornerwise check s7.yaml                    findings, steps, hold points
  cornerwise fill s7.yaml                     asks for the readings to take
  cornerwise log s7.yaml replaced sensor.LR   what was done, and what follows
  cornerwise check jobs/*.yaml --format json  the same for a script
  cornerwise packs show position-signals      what a pack knows, on what basis

Exit codes: 0 nothing at the fail level, 1 something is, 2 the input or the
call is wrong, 3 a fault in the program, or output that could not be written.`;

const build = (shell: Shell): Command => {
  const { io } = shell;
  const program = new Command('cornerwise')
    .description('A diagnostic worksheet for electronically controlled, air-levelled suspension.')
    .version(shell.version, '-V, --version', 'Print the version.')
    .helpOption('-h, --help', 'Show help.')
    .helpCommand('help [command]', 'Show help for a command.')
    // The list shows names only; the help of each command shows its arguments.
    .configureHelp({ subcommandTerm: (command) => command.name() })
    .exitOverride()
    .configureOutput({
      writeOut: (text) => io.stdout.write(text),
      writeErr: (text) => io.stderr.write(text),
      getOutHelpWidth: () => Math.min(io.stdout.columns ?? 80, 100),
      getErrHelpWidth: () => Math.min(io.stdout.columns ?? 80, 100),
      // The message repeats what was typed, which may hold control characters.
      outputError: (text, write) => write(clean(text.replace(/^error: /u, 'cornerwise: '))),
    })
    .showHelpAfterError('(see cornerwise --help)')
    .addHelpText('after', examples)
    .hook('preAction', (_, action) => {
      const { rules = [] } = action.opts<{ readonly rules?: readonly string[] }>();
      for (const folder of rules) {
        if (!isFolder(resolve(io.cwd, folder))) action.error(`error: there is no rule folder ${folder}`);
      }
    });
  addCheck(program, shell);
  addNew(program, shell);
  addAdd(program, shell);
  addFill(program, shell);
  addLog(program, shell);
  addFix(program, shell);
  addWaive(program, shell);
  addUndo(program, shell);
  addNext(program, shell);
  addSweep(program, shell);
  addPacks(program, shell);
  addSchema(program, shell);
  addCompletion(program, shell);
  return program;
};

/**
 * The whole program in process: arguments in, exit code out. Everything it reads and prints goes through `io`.
 */
export const run = async (argv: readonly string[], io: Io): Promise<ExitCode> => {
  let code: ExitCode = exitCodes.clear;
  const shell: Shell = {
    io,
    version: manifest.version,
    finish: (given) => {
      code = given;
    },
  };
  try {
    await build(shell).parseAsync([...argv], { from: 'user' });
  } catch (error) {
    code = codeOf(error, io);
  }
  return told(code, io);
};

/** The exit code of what was thrown, with the reason told. */
const codeOf = (error: unknown, io: Io): ExitCode => {
  if (error instanceof CommanderError) return error.exitCode === 0 ? exitCodes.clear : exitCodes.wrongInput;
  const message = error instanceof Error ? error.message : String(error);
  io.stderr.write(`cornerwise: a fault in the program itself, not in your input: ${message}\n`);
  if (io.env.CORNERWISE_TRACE && error instanceof Error) io.stderr.write(`${error.stack}\n`);
  return exitCodes.fault;
};

/** What nobody could read is no verdict: then the code is that of a fault, with a sentence where one can be said. */
const told = (code: ExitCode, { stdout, stderr }: Io): ExitCode => {
  const lost = stdout.failure?.() ?? null;
  if (lost !== null) stderr.write(`cornerwise: what was to be printed could not be written (${lost})\n`);
  return lost !== null || (stderr.failure?.() ?? null) !== null ? exitCodes.fault : code;
};
