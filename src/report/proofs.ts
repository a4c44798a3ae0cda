import type { PlacedGap } from '../core/proofs/gaps.ts';
import type { ProofResult } from '../core/proofs/prove.ts';
import type { SuspectsProof } from '../core/suspects/proof/prove-suspects.ts';
import type { Problem } from '../input/problem.ts';
import { oneLine } from './clean.ts';
import { wrap } from './sheet/grid.ts';
import type { Style } from './style.ts';
import { type Money, suspectProofLines } from './suspect-proofs.ts';
import { gapWords } from './words/gap-words.ts';

/** How one pack stood its proofs. */
export interface Proved {
  readonly name: string;
  /** Where it lies, as a person would type it. */
  readonly file: string;
  readonly results: readonly ProofResult[];
  /** Lines of proofs that need no longer hold. */
  readonly excused: readonly number[];
  /** How many limits were moved; null for a version of which that is not asked. */
  readonly moved: number | null;
  readonly gaps: readonly PlacedGap[];
  /** Null where it has no suspects. */
  readonly suspects: SuspectsProof | null;
  readonly problems: readonly Problem[];
}

/** The proofs that should hold and do not. */
export const failedOf = ({ results, excused }: Proved): readonly ProofResult[] =>
  results.filter(({ failures, proof }) => failures.length > 0 && !excused.includes(proof.line));

const earlierNote =
  'Of earlier versions only the proofs are run: they were released before limits had to be pinned.';

const count = (number: number, one: string): string => `${number} ${one}${number === 1 ? '' : 's'}`;

/** `74 proofs hold, 0 do not; 53 limits, all pinned` */
const headOf = (proved: Proved): string => {
  const { name, results, excused, moved, gaps } = proved;
  const failed = failedOf(proved).length;
  const left = results.filter(({ failures, proof }) => failures.length > 0 && excused.includes(proof.line));
  const unnoticed = gaps.filter(({ gap }) => gap.kind === 'unnoticed').length;
  return [
    `${name}: ${results.length - failed - left.length} proofs hold, ${failed} do not`,
    ...(left.length > 0 ? [`${left.length} of an earlier judgement`] : []),
    ...(moved !== null && moved > 0
      ? [
          `${count(moved, 'limit')}, ${unnoticed === 0 ? 'all pinned' : `${count(unnoticed, 'move')} unnoticed`}`,
        ]
      : []),
  ].join('; ');
};

const gapLines = (placed: PlacedGap, file: string, width: number): string[] => {
  const { fails, write } = gapWords(placed);
  return [
    ...wrap(oneLine(`FAILS: ${fails}`), width, 2, 6),
    ...wrap(oneLine(`${file}:${placed.line}: ${write}`), width, 6, 8),
  ];
};

/**
 * How the proofs went: a line a pack, and below it each failure, each thing that nothing proves, and what its suspects
 * can come to.
 */
export const proofReport = (proved: readonly Proved[], money: Money, style: Style): string => {
  const { chalk, text, options } = style;
  const lines = proved.flatMap((one) => {
    const { file, gaps, suspects } = one;
    const failures = failedOf(one).flatMap(({ proof, failures: each }) =>
      each.map(({ expectation: { name: what, subject, value }, found }) => {
        const about = [what, subject].filter((part) => part !== '').join(' ');
        return `  line ${proof.line}: ${about} should be ${value}, and is ${found}`;
      }),
    );
    return [
      ...wrap(headOf(one), options.width, 0, 2).map((line) => chalk.bold(line)),
      ...failures,
      ...gaps.flatMap((gap) => gapLines(gap, file, options.width)),
      ...(suspects ? suspectProofLines(suspects, file, money, style) : []),
    ];
  });
  const notes = proved.some(({ moved, problems }) => moved === null && problems.length === 0)
    ? wrap(earlierNote, options.width)
    : [];
  return `${text([...lines, ...notes].join('\n'))}\n`;
};
