import { type Corner, corners } from '../corner.ts';
import { type Finding, findingsByCheck } from '../finding.ts';
import type { Job } from '../job.ts';
import type { EvidenceGroup, Source } from './model.ts';
import { patternWeights } from './pattern-weights.ts';
import { inSpace, neutralOf, type Weights } from './spaces.ts';

/** What was observed of a group of evidence. */
export interface Observation {
  /** P(observed | value) over the values of the group's space. */
  readonly weights: Weights;
  /** The findings that it rests on. */
  readonly from: readonly Finding[];
  /** The corners that were read; null where the group is not about corners. */
  readonly taken: readonly Corner[] | null;
}

/** Judged, newest of its state, not older than work, and not accepted: what counts as evidence. */
const speaks = ({ verdict, current, waived }: Finding): boolean =>
  verdict !== 'not-taken' && current && waived === null;

/** The chance that a judged value is out of its limits. */
const outChance = ({ verdict, inside }: Finding): number => {
  if (verdict === 'out') return 1;
  return verdict === 'too-close' ? 1 - (inside ?? 0.5) : 0;
};

const everySide = (chance: number, side: Finding['side']): [string, number][] =>
  side === null ? [['out', chance]] : [[side, chance]];

/** Several findings of one check: what is out speaks, else what is closest to it, else all are within. */
const ofFindings = (findings: readonly Finding[]): Observation | null => {
  const [first] = findings;
  if (!first) return null;
  const out = findings.filter(({ verdict }) => verdict === 'out');
  if (out.length > 0) {
    const weights = new Map(out.flatMap(({ side }) => everySide(1, side)));
    return { weights, from: out, taken: null };
  }
  const doubtful = findings.reduce((worst, one) => (outChance(one) > outChance(worst) ? one : worst));
  const chance = outChance(doubtful);
  if (chance === 0) return { weights: new Map([['within', 1]]), from: findings, taken: null };
  const weights = new Map([['within', 1 - chance], ...everySide(chance, doubtful.side)]);
  return { weights, from: [doubtful], taken: null };
};

const ofPattern = (findings: readonly Finding[]): Observation | null => {
  // Out before too close before within; of equals the first.
  const worst = findings.reduce<Finding | null>(
    (best, one) => (best === null || outChance(one) > outChance(best) ? one : best),
    null,
  );
  const weights = worst && patternWeights(worst);
  return worst && weights ? { weights, from: [worst], taken: corners } : null;
};

/** P(what the corners show | only `bad` is off): a corner that was not read shows nothing. */
const onlyThis = (chances: ReadonlyMap<Corner, number>, bad: Corner | null): number =>
  [...chances].reduce((p, [corner, chance]) => p * (corner === bad ? chance : 1 - chance), 1);

/** All corners together: which of them is off, by the chance that each is. */
const ofCorners = (findings: readonly Finding[]): Observation | null => {
  const chances = new Map<Corner, number>();
  for (const corner of corners) {
    const own = findings.filter(({ subject }) => subject === corner).map(outChance);
    if (own.length > 0) chances.set(corner, Math.max(...own));
  }
  if (chances.size === 0) return null;
  const none = onlyThis(chances, null);
  const single = corners.map((corner): [Corner, number] => [corner, onlyThis(chances, corner)]);
  const seen = single.reduce((sum, [corner, p]) => (chances.has(corner) ? sum + p : sum), none);
  // Where one corner alone was read it stands for several that may be off as well.
  const [only] = [...chances.values()];
  const several = chances.size === 1 ? (only ?? 0) : Math.max(0, 1 - seen);
  const telling = findings.filter((one) => outChance(one) > 0);
  return {
    weights: new Map<string, number>([['none', none], ...single, ['several', several]]),
    from: telling.length > 0 ? telling : findings,
    taken: [...chances.keys()],
  };
};

const meaningOf = (finding: Finding): string | null => {
  for (const remark of finding.remarks) if (remark.kind === 'code') return remark.means;
  return null;
};

/**
 * Codes of some meanings in the newest list. That there is none says something only where nothing else is known of
 * the group: a fault need not have set one.
 */
const ofCodes = (
  means: readonly string[],
  findings: readonly Finding[],
  alone: boolean,
): Observation | null => {
  const lists = findings.filter(({ kind }) => kind === 'stored-codes');
  const set = lists.filter(
    (one) => one.verdict === 'out' && means.some((meaning) => meaning === meaningOf(one)),
  );
  if (set.length > 0) return { weights: new Map([['out', 1]]), from: set, taken: null };
  if (!alone || lists.length === 0) return null;
  return { weights: new Map([['within', 1]]), from: lists, taken: null };
};

/** Findings that count as evidence. */
export interface Speaking {
  readonly all: readonly Finding[];
  readonly byCheck: ReadonlyMap<string, readonly Finding[]>;
}

/** What of some findings speaks. */
export const speakingOf = (findings: readonly Finding[]): Speaking => {
  const all = findings.filter(speaks);
  return { all, byCheck: findingsByCheck(all) };
};

const bySource = (
  source: Source,
  { all, byCheck }: Speaking,
  { space }: EvidenceGroup,
  alone: boolean,
): Observation | null => {
  if (source.kind === 'codes') return ofCodes(source.means, all, alone);
  if (source.kind === 'corners') return ofCorners(all.filter(({ check }) => source.checks.includes(check)));
  const own = (byCheck.get(source.check) ?? []).filter(
    ({ subject, state }) =>
      (source.subject === null || subject === source.subject) &&
      (source.states.length === 0 || (state !== null && source.states.includes(state))),
  );
  const byCorner = space === 'pattern' || space === 'corner-pattern' || space === 'corners';
  const asPattern = byCorner ? ofPattern(own) : null;
  return asPattern ?? ofFindings(own);
};

/**
 * What is known of a group: the first of its sources with a finding that speaks decides, alone.
 *
 * @returns null where nothing was judged, or what was is stale or waived: then it is no evidence at all
 */
export const observe = (group: EvidenceGroup, speaking: Speaking): Observation | null => {
  const alone = group.sources.every(({ kind }) => kind === 'codes');
  for (const source of group.sources) {
    const found = bySource(source, speaking, group, alone);
    if (found) return { ...found, weights: inSpace(found.weights, group.space) };
  }
  return null;
};

/** The value that explains an observation best; of equals the first. */
export const likeliestValue = ({ weights }: Observation): string =>
  [...weights].reduce((best, one) => (one[1] > best[1] ? one : best), ['', 0] as [string, number])[0];

/** Whether an observation is of signals that levelling may have brought to their target: every one it rests on. */
export const isLevelled = (
  { levelled, space }: EvidenceGroup,
  seen: Observation,
  { snapshots }: Job,
): boolean =>
  levelled &&
  (seen.weights.get(neutralOf(space)) ?? 0) > 0 &&
  seen.from.every((finding) => {
    const snapshot = snapshots.find(({ id }) => id === finding.snapshot);
    return snapshot?.conditions.words.levelling === 'active';
  });
