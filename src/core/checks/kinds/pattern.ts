import { type Corner, corners } from '../../corner.ts';
import type { PatternRemark, Remark } from '../../finding.ts';
import type { Vehicle, Weight } from '../../job.ts';
import type { Check, Tier } from '../../pack.ts';
import {
  type CornerSignal,
  type CornerSignals,
  type Pattern,
  patternOf,
} from '../../readings/corner-patterns.ts';
import { combine, type Estimate } from '../../readings/estimate.ts';
import { formatNumber } from '../../readings/format-number.ts';
import { readCornerChannel } from '../height-sources.ts';
import { type KindScope, quantitySchema } from '../kind.ts';
import { measuring } from '../measuring.ts';
import type { Measured } from '../measuring-parts.ts';
import { missing, newestOf, type Outcome } from '../outcome.ts';
import { readQuantity } from '../parameters.ts';
import { neverRead, takeAll } from '../take.ts';

interface PatternParameters extends Measured {
  readonly channel: string;
  readonly reference: number;
  /** What a signal is at ride height where the vehicle has no figures of its own, and how far off is no surprise. */
  readonly expected: number;
  readonly spread: number;
  /** The check of this pack whose service data says what to expect. */
  readonly by: string | null;
  /** Whether one spring of a rigid body is among the patterns. */
  readonly springs: boolean;
  /** How much better than none (ΔBIC) all four together must be to be out, where the vehicle has no figures of its own. */
  readonly togetherFrom: number;
}

/**
 * What a corner should show: the middle of the vehicle's own band for it, with half of the half-width as the standard
 * deviation (a band as most are, which one in twenty good vehicles leaves), else the pack's figures.
 */
const expectation = (
  { channel, by, expected, spread }: PatternParameters,
  corner: Corner,
  check: Check,
  vehicle: Vehicle,
): { readonly expected: number; readonly spread: number } => {
  if (by === null || vehicle.serviceData.length === 0) return { expected, spread };
  const wanted = `${check.id.split('/')[0]}/${by}`;
  const own = vehicle.serviceData.filter(({ check: of }) => of === wanted);
  const data =
    own.findLast(({ of }) => of === corner || of === `${channel}.${corner}`) ??
    own.findLast(({ of }) => of === null);
  const { low = null, high = null } = data?.limits ?? {};
  return low === null || high === null
    ? { expected, spread }
    : { expected: (low + high) / 2, spread: (high - low) / 4 };
};

const signalOf = (
  parts: PatternParameters,
  corner: Corner,
  estimate: Estimate,
  check: Check,
  vehicle: Vehicle,
): CornerSignal => {
  const { expected, spread } = expectation(parts, corner, check, vehicle);
  const own = combine([{ estimate, sensitivity: 1 }]).total;
  return {
    value: estimate.value,
    expected,
    // The spread is never narrower than the uncertainty of the reading itself.
    spread: Math.max(spread, own) || parts.spread,
    sense: vehicle.sensorSense?.[corner] === 'falling' ? -1 : 1,
  };
};

const remarkOf = (
  { best, next, lead, sure, weights, fits }: Pattern,
  signals: CornerSignals,
  reference: number,
): PatternRemark => ({
  kind: 'pattern',
  family: best.family,
  where: best.place,
  model: best.name,
  amount: best.amount,
  sure,
  next: next.family,
  lead,
  weights,
  fits,
  signals,
  reference,
});

/** The ΔBIC from which evidence is called positive. Kass and Raftery, Bayes factors (1995), from memory. */
const positive = 2;

/** Families that look the same where all sensors turn alike. */
const alike = ['electrical-together', 'body-together'];

/**
 * Out where a pattern is best; too close where it is hardly better than none; within where none is best (its lead
 * over one free parameter cannot exceed ln n, so it is never more than that).
 */
const verdictOf = (
  { best, overNone }: Pattern,
  parts: PatternParameters,
  signals: CornerSignals,
): 'within' | 'out' | 'too-close' => {
  if (best.family === 'none') return 'within';
  // Frost or a load moves all four signals of a sound vehicle together.
  const usual = corners.every((corner) => signals[corner].spread === parts.spread);
  const from = alike.includes(best.family) && usual ? parts.togetherFrom : positive;
  return overNone < from ? 'too-close' : 'out';
};

/** The pattern as suspects name it: a corner by its name, a spring by its corner, the rest by its family. */
const wordOf = ({ best: { family, place } }: Pattern): string => {
  if (family === 'corner') return String(place);
  return family === 'spring' ? `spring-${place}` : family;
};

const judgeSignals = (signals: CornerSignals, vehicle: Vehicle, parts: PatternParameters): Outcome => {
  const pattern = patternOf(signals, parts.reference, parts.springs);
  const turned = new Set(corners.map((corner) => signals[corner].sense));
  const doubtful = [pattern.best, pattern.next].some(({ family }) => alike.includes(family));
  const remarks: Remark[] = [remarkOf(pattern, signals, parts.reference)];
  if (pattern.best.family !== 'none' && turned.size === 1 && doubtful) remarks.push({ kind: 'tape-decides' });
  if (!corners.every((corner) => vehicle.sensorSense?.[corner])) remarks.push({ kind: 'sense-not-stated' });
  return {
    taken: true,
    verdict: verdictOf(pattern, parts, signals),
    tiers: parts.tiers,
    remarks,
    pattern: wordOf(pattern),
  };
};

/** The check that `expected-by` names; one that the pack does not have is reported. */
const readCheckName = (raw: unknown, { checks, flaw }: KindScope): string | null => {
  if (raw === undefined) return null;
  const name = String(raw);
  if (!checks.includes(name)) {
    const message = `this pack has no check ${name}`;
    const hint = 'name a check that judges each of these signals';
    flaw({
      code: 'unknown-name',
      path: ['expected-by'],
      message,
      hint,
      typed: { word: name, known: checks },
    });
  }
  return name;
};

export const pattern = measuring<PatternParameters>({
  kind: 'pattern',
  about:
    'Which pattern four signals make: all together by an electrical cause, the body, one corner, one side, one axle, or none.',
  properties: {
    of: { type: 'string' },
    /** Nominal reference, which a lifted ground cannot move. */
    reference: quantitySchema,
    expected: quantitySchema,
    spread: quantitySchema,
    /** A check of this pack: where service data replaces its limits, their middle is what to expect. */
    'expected-by': { type: 'string' },
    weight: { enum: ['hold', 'look', 'note'] },
    springs: { type: 'boolean' },
    'together-from': { type: 'number', minimum: 2, 'x-expected': 'a difference of BIC such as 6' },
  },
  required: ['of', 'reference', 'expected', 'spread', 'weight', 'in'],
  read: (raw, scope) => {
    const channel = readCornerChannel(raw.of, 'of', 'V', scope)?.id ?? '';
    const aboveZero = (key: 'reference' | 'spread'): number => {
      const value = readQuantity(raw[key], 'V', [key], scope);
      if (value <= 0) {
        const message = `${key} is not above zero`;
        scope.flaw({ code: 'wrong-value', path: [key], message, hint: 'write a voltage such as 5 V' });
      }
      return value;
    };
    const weight = raw.weight as Weight;
    const tier: Tier = {
      weight,
      limits: { low: null, high: null },
      states: null,
      layouts: null,
      needs: {},
      says: scope.says,
      basis: scope.basis,
    };
    return {
      unit: null,
      channel,
      reference: aboveZero('reference'),
      expected: readQuantity(raw.expected, 'V', ['expected'], scope),
      spread: aboveZero('spread'),
      by: readCheckName(raw['expected-by'], scope),
      springs: raw.springs === true,
      togetherFrom: Number(raw['together-from'] ?? positive),
      tiers: [tier],
    };
  },
  limits: ({ tiers, expected, spread, by }) => [
    `${tiers[0]?.weight}: any pattern that explains the four better than none`,
    `expected: ${formatNumber(expected)} V, standard deviation ${formatNumber(spread)} V, or the vehicle's own band${by === null ? '' : ` of ${by}`}`,
  ],
  beforehand: neverRead,
  subjects: ({ channel }, { fitted }) =>
    corners.every((corner) => fitted.includes(corner))
      ? [{ name: 'body', channels: corners.map((corner) => `${channel}.${corner}`) }]
      : [],
  measure: (occasion, subject, context, check, parameters) => {
    const { vehicle } = context.job;
    const all = takeAll(newestOf(occasion), subject.channels, context, check);
    if (!all.ok) return missing(all.missing);
    const [LF, RF, LR, RR] = corners.map((corner, index) => {
      const { estimate } = all.taken[index] ?? {};
      if (!estimate) throw new Error('a pattern looks at four channels');
      return signalOf(parameters, corner, estimate, check, vehicle);
    });
    if (!LF || !RF || !LR || !RR) throw new Error('a pattern looks at four corners');
    return judgeSignals({ LF, RF, LR, RR }, vehicle, parameters);
  },
});
