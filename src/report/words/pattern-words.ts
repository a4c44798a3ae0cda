import type { PatternRemark, StanceRemark, WireRemark } from '../../core/finding.ts';
import { type PatternFamily, patternFamilies, type Sureness } from '../../core/readings/corner-patterns.ts';
import { formatNumber } from '../../core/readings/format-number.ts';
import { degreesText } from '../numbers.ts';
import type { ReportOptions } from '../style.ts';

type Units = Pick<ReportOptions, 'pressureUnit' | 'temperatureUnit'>;

const familyWords: Readonly<Record<PatternFamily, string>> = {
  none: 'no pattern',
  'electrical-together': 'all four electrically',
  'body-together': 'the whole body',
  corner: 'one corner',
  side: 'one side',
  axle: 'one axle',
  spring: 'one spring',
};

const sureWords: Readonly<Record<Exclude<Sureness, 'cannot-tell'>, string>> = {
  positive: 'positive evidence',
  strong: 'strong evidence',
  'very-strong': 'very strong evidence',
};

/** `1.38 V low`, the way the body would have gone. */
const moved = (amount: number): string => `${Math.abs(amount).toFixed(2)} V ${amount < 0 ? 'low' : 'high'}`;

const whatMoved = ({ model, where, amount }: PatternRemark): string => {
  switch (model) {
    case 'none':
      return 'the four make no pattern';
    case 'scaled':
      return `all four signals at ${Math.round(100 * (1 + amount))} % of what they should be, as by one electrical cause`;
    case 'raised':
      return amount < 0
        ? `all four signals lowered, most where they are low (${Math.abs(amount).toFixed(2)} V at zero), as by one electrical cause`
        : `all four signals raised, most where they are low (${amount.toFixed(2)} V at zero), as by a lifted sensor ground`;
    case 'body':
      return `the whole body, ${moved(amount)}`;
    case 'corner':
      return `one corner alone, ${where} ${moved(amount)}`;
    case 'spring':
      return `the body as over one spring, ${where} ${moved(amount)}`;
    case 'side':
      return `one side, the ${where} ${moved(amount)}`;
    case 'axle':
      return `one axle, the ${where} ${moved(amount)}`;
  }
};

/** A share below this is left out where shares are listed. */
const leastShown = 0.005;

/** The pattern that fits best and how sure that is. */
export const patternWords = (remark: PatternRemark): string => {
  const { family, sure, next } = remark;
  if (family === 'none') return whatMoved(remark);
  const how =
    sure === 'cannot-tell'
      ? `cannot be told from ${familyWords[next]}`
      : `${sureWords[sure]} over ${familyWords[next]}`;
  return `${whatMoved(remark)}; ${how}`;
};

/**
 * The share of each family, the greatest first. Where none is best it says nothing: the others, being many, would have
 * the greater shares together.
 */
export const patternShares = ({ family, weights }: PatternRemark): string =>
  family === 'none'
    ? ''
    : patternFamilies
        .filter((one) => weights[one] >= leastShown)
        .sort((a, b) => weights[b] - weights[a])
        .map((one) => `${familyWords[one]} ${Math.round(100 * weights[one])} %`)
        .join(', ');

const millimetres = (value: number): string => `${formatNumber(Math.abs(value), 0)} mm`;

/** How the body stands, as somebody walking around it would say. */
export const stanceWords = ({ by, height, leftUp, noseUp, expanded }: StanceRemark): string => {
  const lean =
    Math.abs(leftUp) <= expanded.leftUp
      ? 'level from side to side'
      : `leans to the ${leftUp < 0 ? 'left' : 'right'} by ${millimetres(leftUp)}`;
  const nose =
    Math.abs(noseUp) <= expanded.noseUp
      ? 'level from front to rear'
      : `nose ${noseUp < 0 ? 'down' : 'up'} by ${millimetres(noseUp)}`;
  return `by ${by === 'tape' ? 'tape' : 'its sensors'} the body stands ${millimetres(height)} high on average, ${lean}, ${nose}`;
};

const volts = (value: number): string => value.toFixed(value < 0.1 ? 3 : 2);

/** What the wire itself accounts for. */
export const wireWords = (
  { copper, current, celsius, leaves, expanded }: WireRemark,
  units: Units,
): string => {
  const drops = `copper alone drops ${volts(copper)} V here at ${formatNumber(current)} A and ${degreesText(celsius, units)}`;
  if (Math.abs(leaves) <= expanded) return `${drops}, which explains all of it`;
  return leaves > 0
    ? `${drops}, which leaves ${volts(leaves)} V for what is not wire`
    : `${drops}, more than was read: was the load on, and is the wire as stated`;
};
