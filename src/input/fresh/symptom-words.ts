import { isCorner } from '../../core/corner.ts';
import { type SymptomPart, symptomWords } from '../../core/job.ts';
import { type Pair, text } from '../edit/value.ts';
import { cornerMeant } from '../job/corner-hint.ts';
import { quoted } from '../quoted.ts';
import { didYouMean } from '../suggest.ts';
import { right, type Typed, wrong } from '../typed/typed.ts';
import { folded } from '../typed/typed-word.ts';

/** Whether somebody of the shop has seen it is not for the driver to say. */
const parts = (Object.keys(symptomWords) as SymptomPart[]).filter((part) => part !== 'checked');

/** Every word that says something of what the driver tells. */
export const allSymptomWords: readonly string[] = parts.flatMap((part) => [...symptomWords[part]]);

const partOf = (word: string): SymptomPart | undefined =>
  parts.find((part) => (symptomWords[part] as readonly string[]).includes(word));

/** The symptom word that a typed one is, or its corner in another spelling. */
const wordMeant = (typed: string): string | null =>
  cornerMeant(typed) ?? allSymptomWords.find((word) => folded(word) === folded(typed)) ?? null;

const inOrder = (words: readonly string[]): string =>
  parts.flatMap((part) => words.filter((word) => partOf(word) === part)).join(' ');

/** Symptoms as typed, `LR low after-standing`, each part once; as they are kept until the file is written. */
export const typedSymptoms = (typed: string): Typed<string> => {
  const given = typed.split(/[\s,;]+/u).filter((word) => word !== '');
  const words: string[] = [];
  for (const one of given) {
    const word = wordMeant(one);
    if (word === null) {
      return wrong(
        typed,
        `${quoted(one)} is no word for what the driver says`,
        didYouMean(one, allSymptomWords, `it can be ${allSymptomWords.join(', ')}`),
      );
    }
    const part = partOf(word);
    const other = words.find((known) => partOf(known) === part);
    if (other !== undefined) {
      return wrong(typed, `${other} and ${word} say the same thing twice`, 'keep one of them');
    }
    words.push(word);
  }
  return given.length === 0
    ? wrong(typed, 'nothing is typed here', 'write it like LR low after-standing')
    : right(inOrder(words));
};

/** The same as a file says it. */
export const symptomPairs = (words: string): Pair[] =>
  words.split(' ').flatMap((word): Pair[] => {
    const part = partOf(word);
    return part === undefined ? [] : [[part, text(word)]];
  });

/** What drivers say, and the word for it. Judgement, and only ever offered: whoever types keeps it or does not. */
const said: readonly (readonly [RegExp, string])[] = [
  [/^(?:low|lower|sinks?|sags?|sagging|drops?|down)$/u, 'low'],
  [/^(?:high|higher|raised)$/u, 'high'],
  [/^(?:leans?|leaning|tilts?|uneven|lopsided|crooked)$/u, 'uneven'],
  [/^(?:mornings?|overnight|nights?|standing|parked|weekend)$/u, 'after-standing'],
  [/^(?:rain|wet|wash|washing)$/u, 'wet'],
  [/^(?:cold|frost|winter)$/u, 'cold'],
  [/^(?:driving|road|motorway|journey)$/u, 'on-the-road'],
  [/^(?:loaded|passengers|luggage)$/u, 'loaded'],
  [/^(?:always|constantly)$/u, 'always'],
  [/^(?:slow|slowly)$/u, 'slowly'],
  [/^(?:hard|harsh|stiff)$/u, 'hard'],
  [/^(?:bouncy|bounces|bouncing|floaty)$/u, 'bouncy'],
  [/^(?:hiss|hisses|hissing)$/u, 'hiss'],
  [/^(?:knocks?|knocking|clunks?|clunking)$/u, 'knock'],
  [/^front$/u, 'front'],
  [/^(?:rear|back)$/u, 'rear'],
  [/^left$/u, 'left'],
  [/^right$/u, 'right'],
];

const negations: ReadonlySet<string> = new Set([
  'not',
  'no',
  'never',
  'without',
  'neither',
  "doesn't",
  "isn't",
]);

/** A corner that is named in one word or in two, with the number of words that name it. */
const cornerAt = (words: readonly string[], index: number): readonly [string, number] | null => {
  const [one = '', two = ''] = words.slice(index, index + 2);
  const alone = one.length === 2 ? cornerMeant(one) : null;
  if (alone) return [alone, 1];
  const both = cornerMeant(`${one}${two}`);
  return both && two !== '' ? [both, 2] : null;
};

/**
 * The symptoms that a complaint seems to tell of, in the driver's own words: `LR low after-standing`. Empty where it
 * tells of none; what is denied, and what is said of two places at once, is left out.
 */
export const symptomsIn = (complaint: string): string => {
  const words = complaint.toLowerCase().match(/[\p{L}']+/gu) ?? [];
  const found = new Map<SymptomPart, Set<string>>();
  for (let index = 0; index < words.length; index += 1) {
    if (words.slice(Math.max(0, index - 2), index).some((word) => negations.has(word))) continue;
    const corner = cornerAt(words, index);
    const word = corner?.[0] ?? said.find(([form]) => form.test(words[index] ?? ''))?.[1];
    const part = word === undefined ? undefined : partOf(word);
    if (word !== undefined && part) found.set(part, (found.get(part) ?? new Set()).add(word));
    if (corner) index += corner[1] - 1;
  }
  const where = found.get('where');
  // A corner says more than the side or the axle that is named beside it.
  const corners = [...(where ?? [])].filter(isCorner);
  if (where && corners.length === 1) found.set('where', new Set(corners));
  return inOrder([...found.values()].flatMap((own) => (own.size === 1 ? [...own] : [])));
};
