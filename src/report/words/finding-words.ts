import type { DepartureRemark, Finding, Missing, Remark } from '../../core/finding.ts';
import { formatNumber } from '../../core/readings/format-number.ts';
import type { TrendSettle } from '../../core/readings/settle-trend.ts';
import type { UnitName } from '../../core/readings/units.ts';
import { amountText, degreesText, durationText } from '../numbers.ts';
import type { ReportOptions } from '../style.ts';
import { patternWords, stanceWords, wireWords } from './pattern-words.ts';

type Units = Pick<ReportOptions, 'pressureUnit' | 'temperatureUnit'>;

/** Machine output keeps every unit as the packs have it. */
export const ownUnits: Units = { pressureUnit: null, temperatureUnit: null };

type Say<T extends { readonly [K in Tag]: string }, Tag extends string> = {
  readonly [V in T[Tag]]: (of: Extract<T, { readonly [K in Tag]: V }>, units: Units) => string;
};

const list = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;

const either = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;

const missingWords: Say<Missing, 'why'> = {
  'no-snapshot': ({ states }) => `no ${either(states)} snapshot`,
  'no-reading': ({ channels }) => `no reading of ${list(channels)}`,
  'could-not-be-taken': ({ channel, text }) => `${channel} could not be taken: ${text}`,
  unbelievable: ({ channel, read, meant }) =>
    `${channel} cannot be ${read}${meant.length > 0 ? `; ${either(meant)}?` : ''}`,
  'condition-not-stated': ({ condition, wants }) =>
    `wants ${condition}: ${wants}, and the snapshot does not state it`,
  'condition-differs': ({ condition, wants, is }) => `wants ${condition}: ${wants}, and it was ${is}`,
  'vehicle-not-stated': ({ what }) => `the job does not state the vehicle's ${what}`,
  'vehicle-differs': ({ what, wants, is }) =>
    `these limits are for ${what} ${wants}, and this vehicle has ${is}`,
  jumping: ({ channel }) => `${channel} jumps, so it has no single value`,
  'one-reading': ({ channel }) => `wants repeats of ${channel}, or its low and high`,
  'no-table': ({ what }) => `no table for a ${what} battery`,
  'no-limits': ({ what }) => `no limits for ${what}`,
  'not-rested': ({ hours, wants }) =>
    `rested ${formatNumber(hours, 1)} h, and ${wants} h are wanted: a surface charge flatters it`,
  'rest-not-stated': ({ wants }) =>
    `state how long it rested; ${wants} h are wanted, or the surface charge taken off`,
  'too-few-snapshots': ({ wants, condition }) => `wants ${wants} snapshots in a row with ${condition}`,
  'too-few-points': ({ has, wants, states, condition }) =>
    `${has === 1 ? 'one point is' : `${has} points are`} not enough: wants ${wants} ${either(states)} snapshots in a row${condition === null ? '' : ` with ${condition}`}`,
  'feed-first': ({ lost, limit }) =>
    `${formatNumber(lost, 1)} V are lost on the way to the compressor, and no more than ${formatNumber(limit, 1)} V may be before its effort is judged: its feed first`,
  'sleep-not-stated': ({ wants }) => `state how long everything has been asleep; ${wants} min are wanted`,
  'not-asleep': ({ minutes, wants }) =>
    `asleep for ${formatNumber(minutes, 0)} min, and ${formatNumber(wants, 0)} min are wanted`,
  'not-moved': ({ channel, wants }) =>
    `${channel} moved by no more than ${formatNumber(wants)} mm: raise or lower the body on command, and read again`,
  'no-code-list': () => 'no code list was read',
  'no-status-byte': () => 'no status byte was typed',
  'no-lamp': () => 'the lamp was not noted',
  'reference-near-zero': ({ channel }) => `${channel} is too near zero to divide by`,
};

const tableEnd: Readonly<Record<'low' | 'high', string>> = {
  low: 'at or below the end of the table',
  high: 'at or above the end of the table',
};

const remarkWords: Say<Remark, 'kind'> = {
  'service-data': ({ source }) => `the vehicle's own figures: ${source}`,
  word: ({ word }) => word.replaceAll('-', ' '),
  'sense-not-stated': () => 'sensor sense not stated, so all are taken to rise',
  'gain-not-stated': () => 'equal sensor gain not stated, so only a note',
  'temperature-assumed': ({ celsius }, units) =>
    `battery temperature not known: ${degreesText(celsius, units)} ± 15 taken`,
  'temperature-from-air': ({ celsius }, units) =>
    `battery temperature taken from the air, ${degreesText(celsius, units)} ± 15`,
  'temperature-read': ({ celsius }, units) => `at a battery temperature of ${degreesText(celsius, units)}`,
  jumps: ({ low, high }) => `it jumps from ${low} to ${high}; the end nearer a limit is judged`,
  'may-freeze': ({ celsius, freezes }, units) =>
    `CAUTION: so flat a battery freezes at about ${degreesText(freezes, units)}, and it is ${degreesText(celsius, units)}: do not charge, load or jump it before it has thawed`,
  'at-table-end': ({ end }) => tableEnd[end],
  'answered-by-step': ({ step }) => `to be expected after this work; answered by the step ${step}`,
  code: ({ status, means }) => (means === null ? status : `${status}, means ${means}`),
  'hold-point': ({ point }) => `"${point}" was not clear then`,
  equipment: ({ steps }) => `wanted for: ${steps.join('; ')}`,
  extrapolated: ({ corners }) =>
    `${list(corners)}: outside the measured pairs of volts and millimetres, so extrapolated`,
  stance: stanceWords,
  wire: wireWords,
  pattern: patternWords,
  words: ({ weights }) => shareWords(weights),
  effort: ({ gain, unit, current, rated }, units) =>
    `${gain === null ? 'pressure not read' : `gains ${amountText(gain, unit, units)}`} on ${formatNumber(current, 1)} A${rated === null ? ', and the rated current is not stated' : ` of ${formatNumber(rated, 1)} A rated`}`,
  'fill-limit': ({ by }) =>
    by === 'tank'
      ? 'the limit is for the stated tank'
      : "the limit is a share of the vehicle's own earlier run",
  'look-unless': ({ condition, wants }) =>
    `only worth a look without ${condition}: ${wants}: read it again so before it is held`,
  'look-since-flat': ({ volts }) =>
    `only worth a look: the battery rested at ${volts.toFixed(2)} V, and so flat a battery pulls the voltage down`,
  'set-by-test': () => 'a test set it, so that it is no evidence: clear it',
  'stored-elsewhere': ({ still }) =>
    still === null
      ? "another module's code"
      : still === 'new-since-work'
        ? "another module's code, and new since the work"
        : "another module's code, and levelling is faulted",
  'sense-leaves-open': () =>
    'sensor sense not stated: the right and the wrong way cannot be told apart, and both are weighed; state sensor-sense',
  departures: (of) => departureText(of),
  movement: ({ tape, signal, unit }) =>
    `the tape moved by ${formatNumber(tape, 0)} mm and the signal by ${formatNumber(signal, unit === 'V' ? 2 : 0)} ${unit}`,
  'closed-rates': ({ tank, unit, heave, roll, pitch }, units) =>
    `in an hour: tank ${tank < 0 ? '-' : '+'}${amountText(Math.abs(tank), unit, units)}, mean height ${formatNumber(heave, 1)} mm, left side ${formatNumber(roll, 1)} mm, nose ${formatNumber(pitch, 1)} mm`,
  'tape-decides': () =>
    'all sensors turn alike here, so an electrical cause and the body look the same: heights by tape decide',
  'cooling-explains': ({ share, fall, all, unit, from, to }, units) => {
    const by = `cooling from ${degreesText(from, units)} to ${degreesText(to, units)} explains`;
    const lost = amountText(fall, unit, units);
    return all
      ? `${by} the fall of ${lost}`
      : `${by} ${amountText(share, unit, units)} of the fall of ${lost}`;
  },
  'temperature-allowed-for': ({ share, unit, from, to }, units) =>
    `${share > 0 ? 'cooling' : 'warming'} from ${degreesText(from, units)} to ${degreesText(to, units)} ${share > 0 ? 'takes' : 'adds'} ${amountText(Math.abs(share), unit, units)}, which is allowed for`,
  'air-taken-as-steady': ({ rate, unit }, units) =>
    `air temperature not stated with each reading: taken as steady, which leaves ± ${amountText(rate, unit, units)} open`,
  'time-to-lose': ({ amount, unit, hours, atLeast }, units) =>
    atLeast
      ? `it would take ${durationText(hours)} or more to lose ${amountText(amount, unit, units)}`
      : `at this rate it loses ${amountText(amount, unit, units)} in about ${durationText(hours)}`,
  'time-to-fill': ({ to, unit, minutes }, units) =>
    `at this rate it goes from zero to ${amountText(to, unit, units)} in about ${durationText(minutes / 60)}`,
  'column-change': ({ mm, from, to }, units) =>
    `${mm < 0 ? 'cooling' : 'warming'} from ${degreesText(from, units)} to ${degreesText(to, units)} alone ${mm < 0 ? 'lowers' : 'lifts'} every corner by about ${formatNumber(Math.abs(mm), 0)} mm, which is allowed for`,
  'own-spring': ({ corner }) => `the four corners move as a rigid body does on the spring of ${corner} alone`,
  'leans-with': ({ corner, share, unit }) =>
    `${formatNumber(Math.abs(share), 1)} ${unit} ${share < 0 ? 'up' : 'down'} come from the spring of ${corner}, and are taken off`,
  'equal-fall-open': () =>
    'all corners fell alike, as cooling does: state the air temperature with each reading',
  'no-body-moves-so': () => 'no rigid body moves one corner alone: measure again, and look at the floor',
  'air-column': ({ percent, from, to }, units) =>
    `cooling from ${degreesText(from, units)} to ${degreesText(to, units)} alone takes about ${formatNumber(percent, 0)} % of the air column, at all corners alike`,
};

const leastShown = 0.005;

/** `honest 97 %, opposed 3 %`, the likeliest first. */
const shareWords = (weights: Readonly<Record<string, number>>): string =>
  Object.entries(weights)
    .filter(([, weight]) => weight >= leastShown)
    .sort(([, a], [, b]) => b - a)
    .map(([word, weight]) => `${word} ${Math.round(100 * weight)} %`)
    .join(', ');

const departureText = ({ signal, unit, tape, expanded }: DepartureRemark): string => {
  const decimals = unit === 'V' ? 2 : 0;
  return `signal ${formatNumber(signal, decimals)} ± ${formatNumber(expanded.signal, decimals)} ${unit}, tape ${formatNumber(tape, 0)} ± ${formatNumber(expanded.tape, 0)} mm`;
};

const significant = (value: number): string => String(Number(value.toPrecision(1)));

const settleWords = (settle: TrendSettle, own: UnitName): string => {
  const unit = 'unit' in settle ? (settle.unit ?? own) : own;
  switch (settle.how) {
    case 'finer-reading':
      return `read it to ${significant(settle.placeValue)} ${unit}`;
    case 'repeat':
      return `repeat it, ${settle.times} readings in all`;
    case 'better-instrument':
      return settle.placeValue === null
        ? `read it with an instrument good to ± ${significant(settle.halfWidth)} ${unit}`
        : `read it to ${significant(settle.placeValue)} ${unit} with an instrument good to ± ${significant(settle.halfWidth)} ${unit}`;
    case 'instrument-too-coarse':
      return `this instrument cannot pass anything here; one good to ± ${significant(settle.halfWidth)} ${unit} is wanted`;
    case 'read-temperature':
      return 'read the battery temperature, which moves the limit';
    case 'table-too-coarse':
      return 'the published tables are no finer than this; a load test tells';
    case 'longer-run':
      return settle.time === null
        ? 'read it over a longer time'
        : `read it over ${settle.time} ${settle.unit} or more, from first to last`;
    case 'state-air':
      return 'state the air temperature with each reading';
    case 'on-the-limit':
      return 'it lies on the limit, and no instrument settles that';
  }
};

const say = <T extends { readonly [K in Tag]: string }, Tag extends string>(
  table: Say<T, Tag>,
  tag: Tag,
  of: T,
  units: Units,
): string => (table[of[tag] as T[Tag]] as (of: T, units: Units) => string)(of, units);

export const missingText = (missing: Missing, units: Units): string =>
  say(missingWords, 'why', missing, units);

/** What a verdict means, in the pack's few words, without remarks. */
export const briefText = (finding: Finding, units: Units): string => {
  switch (finding.verdict) {
    case 'not-taken':
      return finding.missing ? missingText(finding.missing, units) : 'not taken';
    case 'within':
      return finding.words ?? (finding.measured === null ? '' : 'within its limits');
    case 'out':
      return finding.words ?? (finding.side === null ? '' : `too ${finding.side}`);
    case 'too-close': {
      const advice = finding.settle ? `: ${settleWords(finding.settle, finding.measured?.unit ?? 'V')}` : '';
      return `too close to call${advice}`;
    }
  }
};

/** What a reader should know beside the verdict, in words. */
export const remarkText = (remark: Remark, units: Units): string => say(remarkWords, 'kind', remark, units);

/** The plain-words meaning of a finding, remarks and all. */
export const saysText = (finding: Finding, units: Units = ownUnits): string => {
  const intermittent = finding.intermittent
    ? ['intermittent: a newer reading no longer shows it, and nobody worked on it']
    : [];
  const stale = finding.stale ? ['older than work on what it depends on'] : [];
  const waived = finding.waived
    ? [`accepted until ${finding.waived.until} by ${finding.waived.by}: ${finding.waived.reason}`]
    : [];
  const remarks = finding.remarks.map((remark) => remarkText(remark, units));
  return [briefText(finding, units), ...remarks, ...intermittent, ...stale, ...waived]
    .filter((part) => part !== '')
    .join('; ');
};
