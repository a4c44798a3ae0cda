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

const sumOf = (one: RankedSuspect): string => {
  const [prior, ...rest] = one.ledger;
  const factors = [
    short(prior?.likelihood ?? 0),
    ...rest.map(({ likelihood }, index) => `${letter(index)} ${short(likelihood)}`),
  ];
  return [
    factors.map(kept).join(' × '),
    kept(`= ${short(productOf(one))},`),
    kept(`${(one.probability * 100).toFixed(1)} %`),
  ].join(' ');
};

/** Suspects by their sum, since those of four corners are often alike. */
const alike = (suspects: readonly RankedSuspect[]): ReadonlyMap<string, string[]> => {
  const bySum = new Map<string, string[]>();
  for (const one of suspects) bySum.set(sumOf(one), [...(bySum.get(sumOf(one)) ?? []), one.id]);
  return bySum;
};

/**
 * The whole sum, so that every probability can be worked out again: for each suspect its share before any reading,
 * times how likely it makes each piece of evidence; and each product over the sum of them all.
 */
export const byHandLines = ({ suspects }: Ranking, { text, options }: Style): string[] => {
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
    ...[...alike(suspects)].flatMap(([sums, ids]) =>
      wrap(kept(`${ids.join(', ')}: `) + sums, options.width, 2, 6).map((line) => text(released(line))),
    ),
    ...lines(
      `all of these together, each suspect by itself: ${short(sum)}; a product over that is the probability.`,
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
