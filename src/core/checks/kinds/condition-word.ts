import { type ConditionName, conditionWords, type Weight } from '../../job.ts';
import type { Kind } from '../kind.ts';
import { measuring } from '../measuring.ts';
import { missing, newestOf } from '../outcome.ts';
import { readWords } from '../word-outcome.ts';

/** A stated condition against the words that it should be; one that nobody stated is no finding. */
export const conditionWord: Kind = {
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
    const tier = readWords<string>(undefined, known, wants, scope).tierOf('', raw.weight as Weight);
    const tiers = [tier];
    return measuring({
      unit: null,
      limits: [`${tier.weight}: ${condition} other than ${wants.join(' or ')}`],
      tiers,
      subjects: () => [{ name: condition, channels: [] }],
      measure: (occasion) => {
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
  },
};
