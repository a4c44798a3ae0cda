import { realIo } from './io.ts';
import { run } from './run.ts';
import { exitCodes } from './shell.ts';

export { realIo, run };

/** The program as a process: it ends with the exit code that the arguments come to. */
export const main = async (argv: readonly string[]): Promise<void> => {
  const io = realIo();
  process.on('uncaughtException', (error) => {
    io.stderr.write(`cornerwise: a fault in the program itself, not in your input: ${error.message}\n`);
    process.exit(exitCodes.fault);
  });
  process.exitCode = await run(argv, io);
};
