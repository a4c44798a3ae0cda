import {
  type Axle,
  axleOf,
  axles,
  type Corner,
  corners,
  isAxle,
  isCorner,
  type Side,
  sides,
} from '../../corner.ts';
import { type Finding, findingsByCheck } from '../../finding.ts';
import type { Job, Symptom } from '../../job.ts';
import { type Place, parseKey } from '../../key.ts';
import { concern } from '../hypotheses.ts';
import type { EvidenceGroup, Source, SymptomWords } from '../model.ts';
import { patternWeights } from './pattern-weights.ts';
import { inSpace, neutralOf, type Weights } from './spaces.ts';
import { wordWeights } from './word-weights.ts';

/** What was observed of a group of evidence. */
export interface Observation {
  /** P(observed | value) over the values of the group's space. */
  readonly weights: Weights;
  /** The findings that it rests on; none where the driver said it. */
  readonly from: readonly Finding[];
  /** The corners that were read; null where the group is not about corners. */
  readonly taken: readonly Corner[] | null;
}

interface Seen extends Observation {
  /** True where the weights are over the group's own values already. */
  readonly exact?: boolean;
}

/** Judged, newest of its state or intermittent, not older than work that mends, and not accepted: what counts as evidence. */
const speaks = ({ verdict, current, newest, charged, intermittent, waived }: Finding): boolean =>
  verdict !== 'not-taken' && (current || (newest && charged) || intermittent) && waived === null;

/** The chance that a judged value lies beyond any limit of its check. */
const outChance = ({ outside }: Finding): number => Math.min(1, outside.low + outside.high);

/** Chances of low and high; a verdict that has no side counts for both, and is out once. */
const bySide = (finding: Finding): [string, number][] => {
  const { outside, side, limits } = finding;
  if (limits === null && side === null) return [['out', Math.max(outside.low, outside.high)]];
  return [
    ['low', outside.low],
    ['high', outside.high],
  ];
};

/** Several findings of one check: the one that is likeliest out speaks for all. */
const ofFindings = (findings: readonly Finding[]): Seen | null => {
  const [first] = findings;
  if (!first) return null;
  const worst = findings.reduce((best, one) => (chanceOf(one) > chanceOf(best) ? one : best), first);
  const chance = chanceOf(worst);
  const out = findings.filter((one) => one.verdict === 'out');
  const weights = new Map([['within', Math.max(0, 1 - chance)], ...bySide(worst)]);
  return { weights, from: out.length > 0 ? out : [worst], taken: null };
};

const chanceOf = (finding: Finding): number =>
  finding.limits === null && finding.side === null
    ? Math.max(finding.outside.low, finding.outside.high)
    : outChance(finding);

const likeliestOut = (findings: readonly Finding[]): Finding | null =>
  findings.reduce<Finding | null>(
    (best, one) => (best === null || chanceOf(one) > chanceOf(best) ? one : best),
    null,
  );

const ofPattern = (findings: readonly Finding[]): Seen | null => {
  const worst = likeliestOut(findings);
  const weights = worst && patternWeights(worst);
  return worst && weights ? { weights, from: [worst], taken: corners, exact: true } : null;
};

/** A finding that says a word of the group's own. */
const ofWords = (findings: readonly Finding[]): Seen | null => {
  const worst = likeliestOut(findings);
  const weights = worst && wordWeights(worst);
  return worst && weights ? { weights, from: [worst], taken: null, exact: true } : null;
};

/** P(what the corners show | only `bad` is off): a corner that was not read shows nothing. */
const onlyThis = (chances: ReadonlyMap<Corner, number>, bad: Corner | null): number =>
  [...chances].reduce((p, [corner, chance]) => p * (corner === bad ? chance : 1 - chance), 1);

/** Weights over the corners, from the chance that each is off. */
const cornerWeights = (chances: ReadonlyMap<Corner, number>): Weights => {
  const none = onlyThis(chances, null);
  const single = corners.map((corner): [Corner, number] => [corner, onlyThis(chances, corner)]);
  const seen = single.reduce((sum, [corner, p]) => (chances.has(corner) ? sum + p : sum), none);
  // Where one corner alone was read it stands for several that may be off as well.
  const [only] = [...chances.values()];
  const several = chances.size === 1 ? (only ?? 0) : Math.max(0, 1 - seen);
  return new Map<string, number>([['none', none], ...single, ['several', several]]);
};

/** All corners together: which of them is off, by the chance that each is. */
const ofCorners = (findings: readonly Finding[]): Seen | null => {
  const chances = new Map<Corner, number>();
  for (const corner of corners) {
    const own = findings.filter(({ subject }) => subject === corner).map(chanceOf);
    if (own.length > 0) chances.set(corner, Math.max(...own));
  }
  if (chances.size === 0) return null;
  const telling = findings.filter((one) => chanceOf(one) > 0.05);
  return {
    weights: cornerWeights(chances),
    from: telling.length > 0 ? telling : findings,
    taken: [...chances.keys()],
  };
};

const placeOf = (subject: string): Place | null => {
  if (isCorner(subject) || isAxle(subject)) return subject;
  const { corner, axle } = parseKey(subject);
  return corner ?? axle;
};

const axleNames = ['front', 'rear'] as const satisfies readonly Axle[];

/**
 * Readings at the plugs of both axles: each axle is as low or high as its worst corner. An axle that was not read leaves
 * open whether it is so, too; a reading that names no corner leaves both open.
 */
const ofAxles = (findings: readonly Finding[]): Seen | null => {
  const worst = likeliestOut(findings);
  if (!worst) return null;
  const chances = new Map<Axle, { low: number; high: number }>();
  const corner = new Set<Corner>();
  for (const finding of findings) {
    const place = placeOf(finding.subject);
    if (place === null) continue;
    if (isCorner(place)) corner.add(place);
    const axle = isCorner(place) ? axleOf(place) : place;
    const before = chances.get(axle) ?? { low: 0, high: 0 };
    chances.set(axle, {
      low: Math.max(before.low, finding.outside.low),
      high: Math.max(before.high, finding.outside.high),
    });
  }
  const from = findings.filter((one) => one.verdict === 'out');
  const seen = { from: from.length > 0 ? from : [worst], taken: corner.size > 0 ? [...corner] : null };
  if (chances.size === 0)
    return { ...seen, weights: new Map([['within', 1 - chanceOf(worst)], ...bySide(worst)]) };
  const within = (axle: Axle): number => {
    const own = chances.get(axle);
    return own ? Math.max(0, 1 - own.low - own.high) : 1;
  };
  const off = (axle: Axle, side: 'low' | 'high'): number => chances.get(axle)?.[side] ?? 1;
  const both = (side: 'low' | 'high'): number => axleNames.reduce((p, axle) => p * off(axle, side), 1);
  const other = { front: 'rear', rear: 'front' } as const;
  const one = (side: 'low' | 'high'): [string, number][] =>
    axleNames.map((axle) => [`${side}-${axle}`, off(axle, side) * within(other[axle])]);
  const weights = new Map<string, number>([
    ['within', within('front') * within('rear')],
    ['low', both('low')],
    ['high', both('high')],
    ...one('low'),
    ...one('high'),
  ]);
  return { ...seen, weights, exact: true };
};

const codeOf = (finding: Finding) => finding.remarks.find((remark) => remark.kind === 'code');

const codeFindings = (means: readonly string[], findings: readonly Finding[]): readonly Finding[] =>
  findings.filter((one) => one.verdict === 'out' && means.some((meaning) => meaning === codeOf(one)?.means));

/**
 * Codes of some meanings in the newest list. That there is none says something only where nothing else is known of
 * the group: a fault need not have set one.
 */
const ofCodes = (
  { means, at }: Extract<Source, { kind: 'codes' }>,
  findings: readonly Finding[],
  alone: boolean,
): Seen | null => {
  const lists = findings.filter(({ kind }) => kind === 'stored-codes');
  const set = codeFindings(means, lists).filter(
    (one) => at.length === 0 || at.some((place) => place === codeOf(one)?.at),
  );
  if (set.length > 0) return { weights: new Map([['out', 1]]), from: set, taken: null };
  if (!alone || lists.length === 0) return null;
  return { weights: new Map([['within', 1]]), from: lists, taken: null };
};

/** The corners that an area of the vehicle covers; none where it is no area. */
const cornersOf = (where: string | null): readonly Corner[] => {
  if (where === null) return [];
  if (isCorner(where)) return [where];
  if (isAxle(where)) return axles[where];
  if (Object.hasOwn(sides, where)) return sides[where as Side];
  return where === 'all' ? corners : [];
};

const ofPlaces = (places: readonly Corner[], from: readonly Finding[]): Seen => {
  const named = [...new Set(places)];
  const [only] = named;
  const value = named.length === 1 && only ? only : 'several';
  return { weights: new Map([[value, 1]]), from, taken: null };
};

/** The corners that codes name; a code that names none says nothing here. */
const ofCodeCorners = (means: readonly string[], findings: readonly Finding[]): Seen | null => {
  const lists = findings.filter(({ kind }) => kind === 'stored-codes');
  const set = codeFindings(means, lists).filter((one) => cornersOf(codeOf(one)?.at ?? null).length > 0);
  if (set.length === 0) return null;
  return ofPlaces(
    set.flatMap((one) => cornersOf(codeOf(one)?.at ?? null)),
    set,
  );
};

const says = (symptom: Symptom, words: SymptomWords): boolean =>
  Object.entries(words).every(([part, any]) => any?.includes(symptom[part as keyof SymptomWords] ?? ''));

/** Whether the driver says one of these words; where another word of that part is said, that it is not so. */
const ofSymptom = (
  { part, is }: Extract<Source, { kind: 'symptom' }>,
  symptoms: readonly Symptom[],
): Seen | null => {
  const said = symptoms.flatMap((symptom) => symptom[part] ?? []);
  if (said.length === 0) return null;
  const value = said.some((word) => is.includes(word)) ? 'out' : 'within';
  return { weights: new Map([[value, 1]]), from: [], taken: null };
};

/** A word that the driver's symptoms come to; where their parts are said in other words, that it is not so. */
const ofSaid = (
  { word, words }: Extract<Source, { kind: 'said' }>,
  symptoms: readonly Symptom[],
  group: EvidenceGroup,
): Seen | null => {
  const parts = Object.keys(words) as (keyof SymptomWords)[];
  const telling = symptoms.filter((symptom) => parts.every((part) => symptom[part] !== null));
  if (telling.length === 0) return null;
  const value = telling.some((symptom) => says(symptom, words)) ? word : neutralOf(group);
  return { weights: new Map([[value, 1]]), from: [], taken: null, exact: true };
};

const ofSymptomCorners = (words: SymptomWords, symptoms: readonly Symptom[]): Seen | null => {
  const places = symptoms.filter((symptom) => says(symptom, words)).flatMap(({ where }) => cornersOf(where));
  return places.length > 0 ? ofPlaces(places, []) : null;
};

/** Findings that count as evidence, and what the driver says. */
export interface Speaking {
  readonly all: readonly Finding[];
  readonly byCheck: ReadonlyMap<string, readonly Finding[]>;
  readonly symptoms: readonly Symptom[];
}

/** What of some findings speaks. */
export const speakingOf = (findings: readonly Finding[], symptoms: readonly Symptom[] = []): Speaking => {
  const all = findings.filter(speaks);
  return { all, byCheck: findingsByCheck(all), symptoms };
};

/** How findings of one check are told in a group's values. */
const inValues = (own: readonly Finding[], { space }: EvidenceGroup): Seen | null => {
  if (space === 'words') return ofWords(own);
  const asPattern = space === 'pattern' || space === 'corners' ? ofPattern(own) : null;
  if (asPattern) return asPattern;
  return space === 'axles' ? ofAxles(own) : ofFindings(own);
};

/**
 * Whether a source of a group takes a finding as one of its readings; what codes and drivers say is no reading. What is
 * still to be read may be read in any state that its check allows.
 */
export const isFrom = (source: Source, { place }: EvidenceGroup, finding: Finding): boolean => {
  const { check, subject, state, readIn, verdict } = finding;
  if (source.kind === 'corners') return source.checks.includes(check);
  if (source.kind !== 'finding') return false;
  const states = verdict === 'not-taken' ? readIn : [state];
  return (
    source.check === check &&
    (source.subject === null || subject === source.subject) &&
    (place === null || concern(placeOf(subject), place)) &&
    (source.states.length === 0 || source.states.some((one) => states.includes(one)))
  );
};

const bySource = (source: Source, speaking: Speaking, group: EvidenceGroup, alone: boolean): Seen | null => {
  const { all, byCheck, symptoms } = speaking;
  switch (source.kind) {
    case 'codes':
      return ofCodes(source, all, alone);
    case 'code-corners':
      return ofCodeCorners(source.means, all);
    case 'corners':
      return ofCorners(all.filter((finding) => isFrom(source, group, finding)));
    case 'symptom':
      return ofSymptom(source, symptoms);
    case 'said':
      return ofSaid(source, symptoms, group);
    case 'symptom-corners':
      return ofSymptomCorners(source.words, symptoms);
    case 'finding': {
      const own = (byCheck.get(source.check) ?? []).filter((finding) => isFrom(source, group, finding));
      return inValues(own, group);
    }
  }
};

/**
 * What is known of a group: the first of its sources with a finding that speaks decides, alone. Of what the driver says
 * any source that says so decides.
 *
 * @returns null where nothing was judged, or what was is stale or waived: then it is no evidence at all
 */
export const observe = (group: EvidenceGroup, speaking: Speaking): Observation | null => {
  const alone = group.sources.every(({ kind }) => kind === 'codes');
  let quiet: Observation | null = null;
  for (const source of group.sources) {
    const found = bySource(source, speaking, group, alone);
    if (!found) continue;
    const seen = { ...found, weights: inSpace(found.weights, group.values, found.exact ?? false) };
    const isSaid = source.kind === 'symptom' || source.kind === 'said';
    if (!isSaid || (seen.weights.get(neutralOf(group)) ?? 0) < 1) return seen;
    quiet ??= seen;
  }
  return quiet;
};

/** The value that explains an observation best; of equals the first. */
export const likeliestValue = ({ weights }: Observation): string =>
  [...weights].reduce((best, one) => (one[1] > best[1] ? one : best), ['', 0] as [string, number])[0];

/** Whether everything that an observation rests on was taken while levelling was active. */
export const wasLevelling = ({ from }: Observation, { snapshots }: Job): boolean =>
  from.length > 0 &&
  from.every((finding) => {
    const snapshot = snapshots.find(({ id }) => id === finding.snapshot);
    return snapshot?.conditions.words.levelling === 'active';
  });

/** Whether an observation is of signals that levelling may have brought to their target: every one it rests on. */
export const isLevelled = (group: EvidenceGroup, seen: Observation, job: Job): boolean =>
  group.levelled && (seen.weights.get(neutralOf(group)) ?? 0) > 0 && wasLevelling(seen, job);
