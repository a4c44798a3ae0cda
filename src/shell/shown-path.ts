import { isAbsolute, relative, sep } from 'node:path';
import type { Problem } from '../input/problem.ts';

/** A path as a person below a folder would type it: relative where it lies within, whole where it does not. */
export const shownPath = (path: string, cwd: string): string => {
  const short = relative(cwd, path);
  return short === '' || short === '..' || short.startsWith(`..${sep}`) || isAbsolute(short) ? path : short;
};

/** Problems that name another file than the one asked for, with its path as a person would type it. */
export const withShownPaths = (problems: readonly Problem[], cwd: string): Problem[] =>
  problems.map((problem) =>
    problem.file === null ? problem : { ...problem, file: shownPath(problem.file, cwd) },
  );
