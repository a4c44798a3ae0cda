import type { Missing } from '../../finding.ts';
import type { LogEntry, Snapshot, Weight } from '../../job.ts';
import type { Check } from '../../pack.ts';
import { type EffortWord, effortWeights, effortWords, type Run } from '../../readings/effort-weights.ts';
import { combine, type Estimate } from '../../readings/estimate.ts';
import { formatNumber } from '../../readings/format-number.ts';
import type { Uncertain } from '../../readings/thirds.ts';
import { trendOf } from '../../readings/trend.ts';
import type { CheckContext } from '../check-context.ts';
import { quantitySchema } from '../kind.ts';
import { measuring } from '../measuring.ts';
import type { Measured } from '../measuring-parts.ts';
import { missing, newestOf, type Occasion, type Outcome } from '../outcome.ts';
import {
  type FillParts,
  fillProperties,
  gainOf,
  leastGain,
  readFillParts,
  runningRole,
} from '../over-time/fill-rate.ts';
import { pressureRate, type RateUnits } from '../over-time/rate-units.ts';
import { runsOf, takePoints } from '../over-time/runs.ts';
import { inUnit, trendPoints } from '../over-time/trend-outcome.ts';
import { readChannel, readQuantity } from '../parameters.ts';
import { take } from '../take.ts';
import { readWords, saysByWordSchema, type WordParts, wordOutcome } from '../word-outcome.ts';

interface Parts extends Measured {
  readonly tank: string;
  readonly current: string;
  readonly supply: string;
  readonly battery: string;
  readonly units: RateUnits;
  /** Least gain for `fill.forVolume`. */
  readonly least: number;
  readonly fill: FillParts;
  /** Volts that may be lost on the way to the compressor. */
  readonly lost: number;
  readonly stalled: number;
  readonly low: number;
  readonly high: number;
  /** A */
  readonly none: number;
  /** The test that looks at the exhaust port. */
  readonly port: string;
  readonly weight: Weight;
  readonly words: WordParts<EffortWord>;
}

const perMinute = { why: 'too-few-snapshots', wants: 2, condition: 'compressor: on' } as const;

/** The mean of what a run read of a channel; null where it read nothing. */
const meanOf = (run: Occasion, key: string, context: CheckContext, check: Check): Uncertain | null => {
  const read: Estimate[] = [];
  for (const snapshot of run) {
    const taken = take(snapshot, key, context, check);
    if (taken.ok) read.push(taken.estimate);
  }
  if (read.length === 0) return null;
  const sensitivity = 1 / read.length;
  return {
    value: read.reduce((sum, { value }) => sum + sensitivity * value, 0),
    standard: combine(read.map((estimate) => ({ estimate, sensitivity }))).total,
  };
};

const isDead = (current: Uncertain | null, { none }: Parts): boolean =>
  current !== null && current.value + 2 * current.standard < none;

/** Why the volts at the compressor do not let its effort be judged, or null. */
const voltsMissing = (run: Occasion, parts: Parts, context: CheckContext, check: Check): Missing | null => {
  const both = [parts.battery, parts.supply];
  for (const snapshot of run) {
    const [battery, supply] = both.map((key) => take(snapshot, key, context, check));
    if (!battery?.ok || !supply?.ok) continue;
    const lost = battery.estimate.value - supply.estimate.value;
    return lost > parts.lost ? { why: 'feed-first', lost, limit: parts.lost } : null;
  }
  return { why: 'no-reading', states: check.states, channels: both };
};

/** What was found at the exhaust port last, on the day of the run or after it. */
const portFound = (test: string, log: readonly LogEntry[]): Run['port'] => {
  const entry = log.findLast(({ did, what, failed }) => did === 'tested' && what === test && !failed);
  return entry?.found === 'air-escapes' || entry?.found === 'quiet' ? entry.found : null;
};

const gainIn = (run: Occasion, parts: Parts, context: CheckContext, check: Check): Uncertain | null => {
  const taken = takePoints(run, parts.tank, context, check, 2, perMinute.condition);
  if (!taken.ok) return null;
  const { slope, factor, spread } = trendOf(
    trendPoints(taken.points, 'min', ({ estimate }) => {
      const pressure = inUnit(estimate, parts.units.of);
      return { value: pressure.value, terms: [{ estimate: pressure, sensitivity: 1 }] };
    }),
  );
  return { value: slope, standard: (factor * spread.total) / 2 };
};

const firstRun = (
  context: CheckContext,
  parts: Parts,
  states: readonly Snapshot['state'][],
): Occasion | undefined =>
  runsOf(
    context.job.snapshots.filter(({ state }) => states.includes(state)),
    parts.tank,
    runningRole(parts.tank),
  )[0];

const measure = (
  run: Occasion,
  _subject: unknown,
  context: CheckContext,
  check: Check,
  parts: Parts,
): Outcome => {
  const current = meanOf(run, parts.current, context, check);
  if (!current) return missing({ why: 'no-reading', states: check.states, channels: [parts.current] });
  const dead = isDead(current, parts);
  const volts = dead ? null : voltsMissing(run, parts, context, check);
  if (volts) return missing(volts);
  const gain = gainIn(run, parts, context, check);
  if (!gain && !dead) return missing(perMinute);
  const first = firstRun(context, parts, check.states);
  const isFirst = first !== undefined && newestOf(first) === newestOf(run);
  const earlier = first && !isFirst ? gainOf(first, parts.tank, parts.units, context, check) : null;
  const own = leastGain(parts.fill, parts.least, earlier, context);
  // A first run without any current tells no gain to hold the next one to; the pack's has to do.
  const wasDead =
    first !== undefined && !isFirst && isDead(meanOf(first, parts.current, context, check), parts);
  const least = !own.ok && wasDead ? { ok: true as const, gain: parts.least } : own;
  if (!least.ok && !dead) return missing(least.missing);
  const weights = effortWeights(
    { gain: gain ?? { value: 0, standard: 0 }, current, port: portFound(parts.port, context.job.log) },
    {
      gain: least.ok ? least.gain : parts.least,
      stalled: parts.stalled,
      rated: context.job.vehicle.air.ratedCurrent,
      low: parts.low,
      high: parts.high,
      none: parts.none,
    },
  );
  return wordOutcome(weights, () => parts.weight, parts.words, [
    {
      kind: 'effort',
      gain: gain?.value ?? null,
      unit: parts.units.rate,
      current: current.value,
      rated: context.job.vehicle.air.ratedCurrent,
    },
  ]);
};

export const compressorEffort = measuring<Parts>({
  kind: 'compressor-effort',
  about:
    'What the compressor does with its current: fills as it should, is weak, pumps into the open, against a block, or has no current.',
  properties: {
    of: { type: 'string' },
    current: { type: 'string' },
    /** Volts at the compressor and at the battery: what is lost between them must be little before it is judged. */
    supply: { type: 'string' },
    battery: { type: 'string' },
    'volts-lost': quantitySchema,
    'least-gain': quantitySchema,
    ...fillProperties,
    /** The share of the least gain under which a tank hardly rises. */
    stalled: quantitySchema,
    /** Shares of the rated current. */
    'low-current': quantitySchema,
    'high-current': quantitySchema,
    'no-current': quantitySchema,
    /** The test that looks for air at the exhaust port. */
    port: { type: 'string' },
    weight: { enum: ['hold', 'look', 'note'] },
    'says-by-word': saysByWordSchema,
  },
  required: [
    'of',
    'current',
    'supply',
    'battery',
    'volts-lost',
    'least-gain',
    'for-volume',
    'of-earlier',
    'stalled',
    'low-current',
    'high-current',
    'no-current',
    'port',
    'weight',
    'in',
  ],
  read: (raw, scope) => {
    const tank = readChannel(raw.of, ['of'], scope);
    const units = pressureRate(tank, 'min', scope);
    const share = (key: string): number => readQuantity(raw[key], '%', [key], scope) / 100;
    const channel = (key: string): string => readChannel(raw[key], [key], scope)?.id ?? '';
    const fill = readFillParts(raw, scope);
    if (!fill) throw new Error('the schema asks for a volume');
    const weight = raw.weight as Weight;
    const words = readWords(raw['says-by-word'], effortWords, ['normal'], weight, scope);
    return {
      unit: null,
      tiers: [words.plain],
      tank: tank?.id ?? '',
      current: channel('current'),
      supply: channel('supply'),
      battery: channel('battery'),
      units,
      least: readQuantity(raw['least-gain'], units.rate, ['least-gain'], scope),
      fill,
      lost: readQuantity(raw['volts-lost'], 'V', ['volts-lost'], scope),
      stalled: share('stalled'),
      low: share('low-current'),
      high: share('high-current'),
      none: readQuantity(raw['no-current'], 'A', ['no-current'], scope),
      port: String(raw.port),
      weight,
      words,
    };
  },
  limits: ({ weight, none, least, units, fill, lost, low, high }) => [
    `${weight}: no current (under ${formatNumber(none)} A), or a gain under ${formatNumber(least)} ${units.rate} for a tank of ${formatNumber(fill.forVolume)} l, with the volts at its plug good to ${formatNumber(lost)} V`,
    `current clearly low under ${formatNumber(100 * low)} % of the rated one, high over ${formatNumber(100 * high)} %`,
  ],
  subjects: ({ tank, current }) => [{ name: 'compressor', channels: [tank, current] }],
  withoutOccasion: () => perMinute,
  occasions: (fitting, _subject, _context, { tank, current }) =>
    runsOf(fitting, tank, ({ conditions, readings }) => {
      if (conditions.words.compressor !== 'on') return 'breaks';
      return readings.has(tank) || readings.has(current) ? 'point' : 'passes';
    }),
  measure,
});
