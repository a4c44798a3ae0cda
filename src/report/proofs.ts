import type { Coverage, ProofResult } from '../core/proofs/prove.ts';
import type { SuspectsProof } from '../core/suspects/proof/prove-suspects.ts';
import type { Problem } from '../input/problem.ts';
import type { Style } from './style.ts';
import { type Money, suspectProofLines } from './suspect-proofs.ts';

/** How one pack stood its proofs. */
export interface Proved {
  readonly name: string;
  /** Where it lies, as a person would type it. */
  readonly file: string;
  readonly results: readonly ProofResult[];
  readonly gaps: readonly Coverage[];
  /** Null where it has no suspects. */
  readonly suspects: SuspectsProof | null;
  readonly problems: readonly Problem[];
}

/**
 * How the proofs went: a line a pack, and below it each failure, each check that nothing proves, and what its suspects
 * can come to.
 */
export const proofReport = (proved: readonly Proved[], money: Money, style: Style): string => {
  const { chalk, text } = style;
  const lines = proved.flatMap(({ name, file, results, gaps, suspects }) => {
    const failed = results.filter(({ failures }) => failures.length > 0);
    const good = results.length - failed.length;
    const failures = failed.flatMap(({ proof, failures: each }) =>
      each.map(({ expectation: { name: what, subject, value }, found }) => {
        const about = [what, subject].filter((part) => part !== '').join(' ');
        return `  line ${proof.line}: ${about} should be ${value}, and is ${found}`;
      }),
    );
    const lacking = gaps.map(
      ({ check, fires }) => `  ${check}: no proof shows it ${fires ? 'silent' : 'firing'}`,
    );
    return [
      chalk.bold(`${name}: ${good} proofs hold, ${failed.length} do not`),
      ...failures,
      ...lacking,
      ...(suspects ? suspectProofLines(suspects, file, money, style) : []),
    ];
  });
  return `${text(lines.join('\n'))}\n`;
};
