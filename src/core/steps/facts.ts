import { covers } from '../checks/waivers.ts';
import { type Finding, weightOrder } from '../finding.ts';
import type { CodeMeaning, LogEntry, Snapshot } from '../job.ts';
import { parseKey } from '../key.ts';
import type { Reason } from '../worksheet-parts.ts';
import type { Fact } from './condition.ts';
import { type Answer, type Ground, no, yes } from './ground.ts';
import { isIn, matches, takenBack, windowOf } from './log-entries.ts';
import { faults as faultsFact, moved, proof, stated } from './loop-facts.ts';
import { access, cost } from './money-facts.ts';
import { part } from './part-facts.ts';
import { findingReason, loggedReason } from './reasons.ts';
import { isWork } from './staleness.ts';

/** What the code of a finding means; null where it is no code, or nobody says. */
export const meansOf = (finding: Finding): CodeMeaning | null => {
  for (const remark of finding.remarks) if (remark.kind === 'code') return remark.means;
  return null;
};

type Asked<K extends Fact['fact']> = Extract<Fact, { fact: K }>;

const logged = ({ pattern }: Asked<'log'>, { job, withFailedWork }: Ground): Answer => {
  const tells = (one: LogEntry): boolean => !one.failed || (withFailedWork === true && isWork(one));
  const entry = job.log.findLast((one) => tells(one) && matches(one, pattern) && !takenBack(one, job));
  if (!entry) return no({ kind: 'not-logged', did: pattern.did, what: pattern.what });
  return yes(entry.stamp.at, loggedReason(entry));
};

const finding = (fact: Asked<'finding'>, { findings, job }: Ground): Answer => {
  const own = findings.of(fact.check);
  const found = own.find(
    (one) =>
      one.newest &&
      fact.verdict.includes(one.verdict) &&
      (one.current || one.verdict === 'out') &&
      (fact.subject === null || one.subject === fact.subject),
  );
  const title = own[0]?.checkTitle ?? fact.check;
  // Limits that are not made for this vehicle cannot be asked for.
  if (own.length > 0 && own.every(({ missing }) => missing?.why === 'vehicle-differs')) return yes();
  if (!found) return no({ kind: 'finding-wanted', check: fact.check, title, verdict: fact.verdict });
  const at = job.snapshots.find(({ id }) => id === found.snapshot)?.stamp.at ?? null;
  return yes(at, findingReason(found));
};

const noFinding = (fact: Asked<'no-finding'>, { findings }: Ground): Answer => {
  const against = findings.counting.filter(
    (one) =>
      (!fact.currentOnly || one.current) &&
      weightOrder[one.weight] <= weightOrder[fact.weight] &&
      (fact.packs === null || fact.packs.some((pack) => one.check.startsWith(`${pack}/`))) &&
      !fact.exceptChecks.includes(one.check) &&
      !fact.exceptMeans.some((means) => means === meansOf(one)),
  );
  return against.length === 0 ? yes() : no(...against.map(findingReason));
};

/** Something that was really read: a reason why it could not be is none. */
export const holdsReading = (
  { readings }: Pick<Snapshot, 'readings'>,
  bases: readonly string[] | null = null,
): boolean => {
  for (const [key, { kind }] of readings) {
    if (kind !== 'untaken' && (bases === null || bases.includes(parseKey(key).base))) return true;
  }
  return false;
};

const codeMeans = ({ means }: Asked<'code-means'>, { findings }: Ground): Answer => {
  const found = findings.counting.find((one) => means.some((meaning) => meaning === meansOf(one)));
  return found
    ? yes(null, { kind: 'code-means', means, found: found.subject })
    : no({ kind: 'code-means', means, found: null });
};

const taken = ({ states, mark }: Asked<'taken'>, { job }: Ground): Answer => {
  const window = windowOf(job.log, mark);
  const newest = states.map((state) =>
    job.snapshots.findLast((one) => one.state === state && holdsReading(one) && isIn(one.stamp.at, window)),
  );
  const absent = states.filter((_, index) => !newest[index]);
  if (absent.length > 0) {
    const tooLate = mark === 'before-work' && window !== null && Number.isFinite(window.before);
    return no({ kind: 'not-taken', states: absent, mark, tooLate });
  }
  const found = newest.filter((one) => one !== undefined);
  const at = Math.max(...found.map(({ stamp }) => stamp.at));
  return yes(at, ...found.map(({ id }): Reason => ({ kind: 'taken', snapshot: id })));
};

const codeList = ({ mark, state }: Asked<'code-list'>, { job }: Ground): Answer => {
  const window = windowOf(job.log, mark);
  const found = job.snapshots.findLast(
    (one) => one.codes !== null && (state === null || one.state === state) && isIn(one.stamp.at, window),
  );
  if (found) return yes(found.stamp.at, { kind: 'taken', snapshot: found.id });
  const tooLate = mark === 'before-clear' && window !== null && Number.isFinite(window.before);
  return no({ kind: 'no-code-list', mark, tooLate });
};

const conditions = ({ words, channels, states }: Asked<'conditions'>, { job }: Ground): Answer => {
  const reads = (snapshot: Snapshot): boolean =>
    (states.length === 0 || states.includes(snapshot.state)) && holdsReading(snapshot, channels);
  const snapshot = job.snapshots.findLast(reads);
  const stated: Partial<Readonly<Record<string, string>>> = snapshot?.conditions.words ?? {};
  const met = snapshot && Object.entries(words).every(([name, word]) => stated[name] === word);
  if (met) return yes(snapshot.stamp.at, { kind: 'taken', snapshot: snapshot.id });
  const wants = Object.entries(words).map(([name, word]) => `${name} ${word}`);
  return no({ kind: 'conditions-wanted', wants });
};

/** No stale evidence: everything that was judged and that work has disturbed was read again. */
const fresh = (ground: Ground): Answer => {
  const stale = ground.findings.all.filter(
    (one) => one.stale && one.newest && one.waived === null && !one.moment,
  );
  if (stale.length === 0) return yes();
  const titles = [...new Set(stale.map(({ checkTitle }) => checkTitle))];
  const checks = titles.map((title) => {
    const own = stale.filter(({ checkTitle }) => checkTitle === title).map(({ subject }) => subject);
    return { title, subjects: [...new Set(own)] };
  });
  return no({ kind: 'stale-evidence', checks });
};

/** Answers one fact. */
export const answerFact = (fact: Fact, ground: Ground): Answer => {
  switch (fact.fact) {
    case 'log':
      return logged(fact, ground);
    case 'finding':
      return finding(fact, ground);
    case 'no-finding':
      return noFinding(fact, ground);
    case 'code-means':
      return codeMeans(fact, ground);
    case 'taken':
      return taken(fact, ground);
    case 'code-list':
      return codeList(fact, ground);
    case 'conditions':
      return conditions(fact, ground);
    case 'layout': {
      const { layout } = ground.job.vehicle;
      const reason: Reason = { kind: 'layout', layout };
      return fact.layouts.includes(layout) ? yes(null, reason) : no(reason);
    }
    case 'step': {
      const still = ground.open.filter(
        ({ name, base }) => fact.steps.includes(name) || fact.steps.includes(base),
      );
      const reasons = still.map(({ id, title }): Reason => ({ kind: 'step-open', step: id, title }));
      return reasons.length === 0 ? yes() : no(...reasons);
    }
    case 'steps': {
      const still = ground.open.filter(
        ({ name, base }) => !fact.except.includes(name) && !fact.except.includes(base),
      );
      const reasons = still.map(({ id, title }): Reason => ({ kind: 'step-open', step: id, title }));
      return reasons.length === 0 ? yes() : no(...reasons);
    }
    case 'cost':
      return cost(fact, ground);
    case 'part':
      return part(fact, ground);
    case 'evidence':
      return fresh(ground);
    case 'waivers': {
      // Only one whose finding still counts: renewed, or put right, it is history.
      const over = ground.job.waivers.filter(
        (waiver) =>
          (waiver.ended || waiver.isVoid) &&
          ground.findings.counting.some((one) => covers(waiver, one.check, one.subject)),
      );
      const reasons = over.map(
        ({ finding: of, until, isVoid }): Reason =>
          isVoid ? { kind: 'waiver-void', finding: of } : { kind: 'waiver-ended', finding: of, until },
      );
      return reasons.length === 0 ? yes() : no(...reasons);
    }
    case 'access':
      return access(fact, ground);
    case 'stated':
      return stated(fact, ground);
    case 'moved':
      return moved(fact, ground);
    case 'faults':
      return faultsFact(fact, ground);
    case 'proof':
      return proof(ground);
  }
};
