import type { Remark } from '../finding.ts';
import type { Weight } from '../job.ts';
import type { Tier } from '../pack.ts';
import { likeliest } from '../readings/thirds.ts';
import type { KindScope, Schema } from './kind.ts';
import type { Recognised } from './outcome.ts';

/** The chance beyond which a word is taken as said: what an expanded uncertainty of k = 2 leaves on one side. */
const sure = 0.975;

/** `says-by-word: {opposed: …}`: the plain meaning of each word. */
export const saysByWordSchema: Schema = { type: 'object', additionalProperties: { type: 'string' } };

/** What a check that speaks in words needs to make outcomes of them: plain data. */
export interface WordParts<Word extends string> {
  /** Words that are no finding. */
  readonly good: readonly Word[];
  readonly meanings: Readonly<Partial<Record<string, string>>>;
  /** A tier without limits, for the words and the basis of the check. */
  readonly plain: Tier;
}

/** A tier without limits, for kinds that judge no quantity. */
export const plainTier = (weight: Weight, { says, basis }: Pick<KindScope, 'says' | 'basis'>): Tier => ({
  weight,
  limits: { low: null, high: null },
  states: null,
  layouts: null,
  needs: {},
  says,
  basis,
});

/** Reads the meanings of a kind's words; one that the kind does not have is reported. */
export const readWords = <Word extends string>(
  raw: unknown,
  words: readonly Word[],
  good: readonly Word[],
  weight: Weight,
  scope: KindScope,
): WordParts<Word> => {
  const meanings = (raw ?? {}) as WordParts<Word>['meanings'];
  for (const word of Object.keys(meanings)) {
    if (words.some((one) => one === word)) continue;
    scope.flaw({
      code: 'unknown-name',
      path: ['says-by-word', word],
      message: `this kind has no word ${word}`,
      hint: `it has ${words.join(', ')}`,
      typed: { word, known: words },
    });
  }
  return { good, meanings, plain: plainTier(weight, scope) };
};

const tierOf = <Word extends string>(
  { meanings, plain }: WordParts<Word>,
  word: Word,
  weight: Weight,
): Tier => {
  const meaning = meanings[word];
  return { ...plain, weight, says: meaning === undefined ? plain.says : { out: meaning, within: meaning } };
};

/**
 * The outcome that the chances of words come to: within where the good ones have nearly all, out where they have nearly
 * nothing, too close between.
 */
export const wordOutcome = <Word extends string>(
  weights: Readonly<Record<Word, number>>,
  weightOf: (word: Word) => Weight,
  parts: WordParts<Word>,
  remarks: readonly Remark[] = [],
): Recognised => {
  const word = likeliest(weights);
  const chance = parts.good.reduce((sum, one) => sum + weights[one], 0);
  const verdict = chance >= sure ? 'within' : chance <= 1 - sure ? 'out' : 'too-close';
  return {
    taken: true,
    verdict,
    tiers: [tierOf(parts, word, weightOf(word))],
    remarks: [...remarks, { kind: 'words', weights }],
    pattern: word,
    patternWeights: weights,
  };
};
