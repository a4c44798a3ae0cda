import type { OutcomeEffect, RankedSuspect, Ranking } from '../../core/suspects/ranking.ts';
import { oneLine } from '../clean.ts';
import { kept, released, wrap } from '../sheet/grid.ts';
import type { Style } from '../style.ts';

/** Three digits, as people write them. */
const short = (value: number): string => {
  if (value === 0) return '0';
  return value >= 0.001 ? Number(value.toPrecision(3)).toString() : value.toExponential(2);
};

/** A, B, … Z, AA, AB … */
const letter = (index: number): string =>
  `${index >= 26 ? letter(Math.floor(index / 26) - 1) : ''}${String.fromCharCode(65 + (index % 26))}`;

const productOf = ({ ledger }: RankedSuspect): number =>
  ledger.reduce((product, { likelihood }) => product * likelihood, 1);

type Alone = (one: RankedSuspect) => number;

/**
 * How probable each suspect is with no other at fault beside it, in the way of failing that fits best, and how probable
 * all else is together: pairs, and other ways of failing.
 */
const sharesOf = ({ suspects, hypotheses }: Ranking): { readonly alone: Alone; readonly rest: number } => {
  const alone: Alone = ({ id, mode }) =>
    hypotheses.find((one) => one.id === id && one.modes[0] === (mode?.id ?? null))?.probability ?? 0;
  return { alone, rest: 1 - suspects.reduce((sum, one) => sum + alone(one), 0) };
};

const nameOf = ({ id, mode }: RankedSuspect): string => (mode ? `${id} (${mode.title})` : id);

const sumOf = (one: RankedSuspect, probability: number): string => {
  const [prior, ...rest] = one.ledger;
  const factors = [
    short(prior?.likelihood ?? 0),
    ...rest.map(({ likelihood }, index) => `${letter(index)} ${short(likelihood)}`),
  ];
  return [
    factors.map(kept).join(' × '),
    kept(`= ${short(productOf(one))},`),
    kept(`${(probability * 100).toFixed(1)} %`),
  ].join(' ');
};

/** What is less probable is not seen in the digits that are shown. */
const leastRest = 0.0005;

/** Suspects by their sum, since those of four corners are often alike. */
const alike = (suspects: readonly RankedSuspect[], alone: Alone): ReadonlyMap<string, string[]> => {
  const bySum = new Map<string, string[]>();
  for (const one of suspects) {
    const sum = sumOf(one, alone(one));
    bySum.set(sum, [...(bySum.get(sum) ?? []), nameOf(one)]);
  }
  return bySum;
};

/**
 * The whole sum, so that every probability can be worked out again: for each suspect its share before any reading,
 * times how likely it makes each piece of evidence; and each product over the sum of them all, as a share of what two
 * faults at once and other ways of failing leave.
 */
export const byHandLines = (ranking: Ranking, { text, options }: Style): string[] => {
  const { suspects } = ranking;
  const { alone, rest } = sharesOf(ranking);
  const ways = suspects.some(({ mode }) => mode !== null);
  const evidence = suspects[0]?.ledger.slice(1) ?? [];
  const sum = suspects.reduce((total, one) => total + productOf(one), 0);
  const lines = (line: string, first = 2, rest = 6): string[] =>
    wrap(text(oneLine(line)), options.width, first, rest);
  return [
    ...lines(
      'share before any reading × how likely each of these is under the suspect, slips of 2 % included:',
    ),
    ...evidence.flatMap(({ title, observed }, index) =>
      lines(`${letter(index)}  ${title}${observed === '' ? '' : `: ${observed}`}`, 4, 7),
    ),
    ...[...alike(suspects, alone)].flatMap(([sums, ids]) =>
      wrap(kept(`${ids.join(', ')}: `) + sums, options.width, 2, 6).map((line) => text(released(line))),
    ),
    ...lines(
      rest > leastRest
        ? `all of these together, each suspect by itself: ${short(sum)}; a product over that, times ${((1 - rest) * 100).toFixed(1)} %, is the probability that it alone is at fault${ways ? ', in this way' : ''}. Two at once${ways ? ', and other ways of failing' : ''}: ${(rest * 100).toFixed(1)} %.`
        : `all of these together, each suspect by itself: ${short(sum)}; a product over that is the probability.`,
    ),
  ];
};

/** How likely an outcome is under each suspect; those that share a value stand together, the most last. */
export const outcomeByHand = ({ under }: OutcomeEffect): string => {
  const groups = new Map<string, string[]>();
  for (const [id, value] of under) groups.set(short(value), [...(groups.get(short(value)) ?? []), id]);
  const sorted = [...groups].sort(([, a], [, b]) => a.length - b.length);
  return sorted
    .map(([value, ids], index) =>
      index === sorted.length - 1 && ids.length > 1 ? `${value} all others` : `${value} ${ids.join(' ')}`,
    )
    .join('; ');
};
