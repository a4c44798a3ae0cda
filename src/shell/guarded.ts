import { programFault } from '../core/flaw.ts';
import { type Problem, wholeFile } from '../input/problem.ts';

/** A fault of the program at one file, told as a problem of the file, so that the others are judged all the same. */
export const faultProblem = (error: unknown): Problem =>
  wholeFile(
    programFault,
    `a fault in the program itself: ${error instanceof Error ? error.message : String(error)}`,
    'the file is as it was; it may be judged where what is unusual in it is taken out',
  );

/** Does something with one file, and tells what the program itself fails at as a problem of it. */
export const guarded = async <T>(
  act: () => Promise<T>,
  failed: (problems: readonly Problem[]) => T,
): Promise<T> => {
  try {
    return await act();
  } catch (error) {
    return failed([faultProblem(error)]);
  }
};

/** Whether some problem is a fault of the program. */
export const hasFault = (problems: readonly { readonly code: string }[]): boolean =>
  problems.some(({ code }) => code === programFault);
