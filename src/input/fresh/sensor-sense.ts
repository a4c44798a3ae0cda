import { type Corner, sides } from '../../core/corner.ts';
import { braces, text, type Value } from '../edit/value.ts';

/** How the sensors of a vehicle are turned, in a word: which way the volts go as the body rises. */
export const senseWords = ['rising', 'falling', 'left-rising', 'right-rising'] as const;
export type SenseWord = (typeof senseWords)[number];

/** Which way the volts of one corner's sensor go as the body rises. */
const senseAt = (word: SenseWord, corner: Corner): 'rising' | 'falling' => {
  if (word === 'rising' || word === 'falling') return word;
  const rising: readonly Corner[] = word === 'left-rising' ? sides.left : sides.right;
  return rising.includes(corner) ? 'rising' : 'falling';
};

/** The same as a file says it, for the corners that have a sensor. */
export const senseValue = (word: SenseWord, fitted: readonly Corner[]): Value =>
  braces(fitted.map((corner) => [corner, text(senseAt(word, corner))]));
