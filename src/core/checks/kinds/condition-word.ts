import { type ConditionName, conditionWords, type Weight } from '../../job.ts';
import { measuring } from '../measuring.ts';
import type { Measured } from '../measuring-parts.ts';
import { missing, newestOf } from '../outcome.ts';
import { plainTier } from '../word-outcome.ts';

interface ConditionWord extends Measured {
  readonly condition: ConditionName;
  readonly wants: readonly string[];
}

/** A stated condition against the words that it should be; one that nobody stated is no finding. */
export const conditionWord = measuring<ConditionWord>({
  kind: 'condition-word',
  about: 'A condition as the snapshot states it, against the words that it should be.',
  properties: {
    condition: { enum: Object.keys(conditionWords) },
    wants: { type: 'array', items: { type: 'string' }, minItems: 1 },
    weight: { enum: ['hold', 'look', 'note'] },
  },
  required: ['condition', 'wants', 'weight', 'in'],
  read: (raw, scope) => {
    const condition = raw.condition as ConditionName;
    const wants = raw.wants as readonly string[];
    const known: readonly string[] = conditionWords[condition];
    for (const [index, word] of wants.entries()) {
      if (known.includes(word)) continue;
      scope.flaw({
        code: 'unknown-name',
        path: ['wants', index],
        message: `${condition} is never ${word}`,
        hint: `it is ${known.join(', ')}`,
        typed: { word, known },
      });
    }
    return { unit: null, tiers: [plainTier(raw.weight as Weight, scope)], condition, wants };
  },
  limits: ({ tiers, condition, wants }) => [
    `${tiers[0]?.weight}: ${condition} other than ${wants.join(' or ')}`,
  ],
  subjects: ({ condition }) => [{ name: condition, channels: [] }],
  measure: (occasion, _subject, _context, _check, { condition, wants, tiers }) => {
    const is = newestOf(occasion).conditions.words[condition];
    if (is === undefined)
      return missing({ why: 'condition-not-stated', condition, wants: wants.join(' or ') });
    return {
      taken: true,
      verdict: wants.includes(is) ? 'within' : 'out',
      tiers,
      remarks: [],
      pattern: is,
    };
  },
});
