import type { Check, Pack } from '../pack.ts';
import { judgeAlone } from './alone.ts';
import { fits } from './expectation.ts';
import { type Move, movesOf } from './moves.ts';
import { type Expectation, findingFor, type Proof } from './prove.ts';

/** A proof with what it expects of one check, and rightly so. */
export interface ProofOfCheck {
  readonly proof: Proof;
  readonly expect: readonly Expectation[];
}

/** How a pack's limits stand in its proofs. */
export interface Pinning {
  /** How many quantities were moved. */
  readonly moved: number;
  readonly unnoticed: readonly Unnoticed[];
}

/** A move that no proof of its check notices. */
export interface Unnoticed {
  readonly check: Check;
  /** The check's place in its pack. */
  readonly index: number;
  readonly move: Move;
  readonly proofs: readonly ProofOfCheck[];
}

/** The proofs of a check, with those of their expectations that hold. */
const proofsOf = (check: Check, proofs: readonly Proof[]): ProofOfCheck[] =>
  proofs.flatMap((proof) => {
    const own = proof.expect.filter(({ about, name }) => about === 'check' && name === check.id);
    if (own.length === 0) return [];
    const findings = judgeAlone(proof, check);
    const expect = own.filter((one) => fits(findingFor(one, findings), one.value));
    return expect.length === 0 ? [] : [{ proof, expect }];
  });

const notices = ({ proof, expect }: ProofOfCheck, { moved }: Move): boolean => {
  const findings = judgeAlone(proof, moved);
  return expect.some((one) => !fits(findingFor(one, findings), one.value));
};

/**
 * Moves every quantity of every check a little and more, up and down, and looks whether a proof of that check then no
 * longer holds. What no proof notices could be mistyped, or changed, and nobody would know.
 */
export const pinningOf = (pack: Pack, proofs: readonly Proof[]): Pinning => {
  let moved = 0;
  const unnoticed = pack.checks.flatMap((check, index) => {
    const moves = movesOf(pack, check);
    moved += new Set(moves.map(({ quantity }) => quantity)).size;
    if (moves.length === 0) return [];
    const own = proofsOf(check, proofs);
    return moves
      .filter((move) => !own.some((one) => notices(one, move)))
      .map((move): Unnoticed => ({ check, index, move, proofs: own }));
  });
  return { moved, unnoticed };
};
