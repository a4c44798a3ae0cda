import { conditionWords, lampStates } from '../../core/job.ts';
import { findUnit, quantityOf } from '../../core/readings/units.ts';
import { isCodeText } from '../job/read-codes.ts';
import type { Assignment } from './assignment.ts';
import { right, type Typed, wrong } from './typed.ts';
import { isConditionName } from './typed-name.ts';

/** Words that say what they are of by themselves, and what they may be of. */
const owners: ReadonlyMap<string, readonly string[]> = (() => {
  const byWord = new Map<string, string[]>();
  for (const [name, words] of [...Object.entries(conditionWords), ['lamp', lampStates] as const]) {
    for (const word of words) byWord.set(word, [...(byWord.get(word) ?? []), name]);
  }
  return byWord;
})();

const isTemperature = (word: string): boolean => {
  const unit = /^[-\u2212]?\d+(?:[.,]\d+)?\s*(\D+)$/u.exec(word)?.[1];
  const found = unit === undefined ? null : findUnit(unit.trim());
  return found !== null && quantityOf(found) === 'temperature';
};

/**
 * A word without a name and an equals sign, where it can be of one thing only: `level` of the floor, `disabled` of
 * levelling, `C1A21:stored`, `8C` of the air. Null where it says nothing by itself.
 */
export const bareAssignment = (word: string): Typed<Assignment> | null => {
  const own = word.trim();
  const lower = own.toLowerCase();
  if (isCodeText(own.split(/[:\s]/u)[0] ?? '')) return right({ name: 'code', typed: own });
  if (isTemperature(own)) return right({ name: 'air', typed: own });
  const names = isConditionName(lower) ? undefined : owners.get(lower);
  const [name, ...more] = names ?? [];
  if (names === undefined || name === undefined) return null;
  if (more.length === 0) return right({ name, typed: lower });
  const choice = names.map((one) => `${one}=${lower}`).join(', ');
  return wrong(word, `"${lower}" may be said of several things`, `write one of ${choice}`);
};
