import type { Flaw, ProblemCode } from '../core/flaw.ts';
import type { LocatedFlaw } from './problem.ts';
import { didYouMean } from './suggest.ts';
import { type Node, offsetAt } from './yaml/tree.ts';

/** Collects flaws while a file is read, so that one run shows them all. */
export interface Sink {
  readonly flaws: readonly LocatedFlaw[];
  readonly add: (code: ProblemCode, at: Node | number, message: string, hint: string | null) => void;
  readonly addAll: (flaws: readonly LocatedFlaw[]) => void;
  /** A flaw that the core reported by its path below a node. */
  readonly addFlaw: (flaw: Flaw, below: Node) => void;
}

export const makeSink = (): Sink => {
  const flaws: LocatedFlaw[] = [];
  return {
    flaws,
    add: (code, at, message, hint) => {
      flaws.push({ code, at: typeof at === 'number' ? at : at.start, message, hint });
    },
    addAll: (more) => {
      // Not spread into push: a file can hold more flaws than a call may have arguments.
      for (const flaw of more) flaws.push(flaw);
    },
    addFlaw: ({ code, path, atKey, message, hint, typed }, below) => {
      const offered = typed ? didYouMean(typed.word, typed.known, hint) : hint;
      flaws.push({ code, at: offsetAt(below, path, atKey ?? false), message, hint: offered });
    },
  };
};
