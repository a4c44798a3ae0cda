import type { Finding } from '../finding.ts';
import type { Weight } from '../job.ts';
import { formatNumber } from '../readings/format-number.ts';
import { parseQuantity } from '../readings/parse-quantity.ts';
import type { Verdict } from '../readings/verdict.ts';

/** What a proof may expect of a finding first. */
export const expectedVerdicts = [
  'within',
  'out',
  'too-close',
  'not-taken',
  'absent',
] as const satisfies readonly (Verdict | 'absent')[];

const weights: readonly string[] = ['hold', 'look', 'note'] satisfies readonly Weight[];

/** `out look free 12.5 %`: a verdict, and as far as a proof says so a weight, a word of the check, and a quantity. */
interface Parts {
  readonly verdict: string;
  readonly weight: string | null;
  readonly word: string | null;
  readonly quantity: string | null;
}

const partsOf = (expected: string): Parts => {
  const [verdict = '', ...rest] = expected.split(/\s+/u);
  const at = rest.findIndex((token) => /^[+-]?\d/u.test(token));
  const words = at < 0 ? rest : rest.slice(0, at);
  return {
    verdict,
    weight: words.find((token) => weights.includes(token)) ?? null,
    word: words.find((token) => !weights.includes(token)) ?? null,
    quantity: at < 0 ? null : rest.slice(at).join(' '),
  };
};

/** Whether a finding comes to a quantity, as far as its digits go. */
const comesTo = ({ measured }: Finding, text: string): boolean => {
  if (!measured) return false;
  const typed = parseQuantity(text, measured.unit);
  if (!typed.ok) return false;
  return Math.abs(measured.value - typed.value.value) <= typed.value.resolution / 2 + 1e-9;
};

/** Whether a finding is what a proof expects; `absent` expects none. */
export const fits = (finding: Finding | undefined, expected: string): boolean => {
  const { verdict, weight, word, quantity } = partsOf(expected);
  if (!finding) return expected === 'absent';
  return (
    finding.verdict === verdict &&
    (weight === null || finding.weight === weight) &&
    (word === null || finding.pattern === word) &&
    (quantity === null || comesTo(finding, quantity))
  );
};

/** What was found, told as an expectation tells it: with its weight where it is out, and with all that was asked for. */
export const foundText = (finding: Finding | undefined, expected: string): string => {
  if (!finding) return 'absent';
  const { weight, word, quantity } = partsOf(expected);
  const { verdict, measured, pattern } = finding;
  return [
    verdict,
    ...(verdict === 'out' || weight !== null ? [finding.weight] : []),
    ...(word !== null ? [pattern ?? 'without a word'] : []),
    ...(quantity !== null
      ? [measured ? `${formatNumber(measured.value, 6)} ${measured.unit}` : 'no quantity']
      : []),
  ].join(' ');
};
