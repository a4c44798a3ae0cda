import type { Job, LogEntry } from '../job.ts';
import { failing } from '../suspects/advice.ts';
import type { Diagnosis } from '../suspects/diagnosis.ts';
import { forAndAgainst } from '../suspects/ledger.ts';
import type { SuspectShare } from '../suspects/ranking.ts';
import { suspectAt, type WeighedSuspects } from '../suspects/weigh.ts';
import type { Reason } from '../worksheet-parts.ts';
import type { Fact } from './condition.ts';
import { type Answer, type Ground, no, yes } from './ground.ts';
import { takenBack } from './log-entries.ts';
import { isWork } from './staleness.ts';

/** Components that were ordered or have come, and that nobody declined or worked on since. */
const awaited = (job: Job): ReadonlySet<string> =>
  new Set(
    job.log.flatMap((entry, place) => {
      const { did, what, failed } = entry;
      if ((did !== 'ordered' && did !== 'received') || what === null || failed) return [];
      const fitted = job.log.some((later, at) => at > place && isWork(later) && later.what === what);
      return fitted || takenBack(entry, job) ? [] : [what];
    }),
  );

interface PartInQuestion extends SuspectShare {
  /** Its place among the hypotheses. */
  readonly place: number;
}

/** What was ordered and is a suspect, since it may still go back; else the leading suspect, where it is a part. */
const inQuestion = (job: Job, weighed: WeighedSuspects): readonly PartInQuestion[] => {
  const ordered = awaited(job);
  const suspects = weighed.order.map((place) => ({ place, ...suspectAt(place, weighed) }));
  const own = suspects.filter(({ component }) => component !== null && ordered.has(component));
  return own.length > 0 ? own : suspects.slice(0, 1).filter(({ isPart }) => isPart);
};

const blamed = (
  { title, place }: PartInQuestion,
  { model, evidence }: WeighedSuspects,
  { findings }: Ground,
): readonly Reason[] => {
  const { for: pro } = forAndAgainst(place, model.hypotheses, evidence.rows);
  const speaking = findings.all.filter(({ id, current }) => current && pro.includes(id));
  if (speaking.some(({ verdict }) => verdict === 'out')) return [];
  const tooClose = speaking
    .filter(({ verdict }) => verdict === 'too-close')
    .map(({ checkTitle, subject }) => `${checkTitle}, ${subject}`);
  return [{ kind: 'part-not-blamed', title, tooClose }];
};

const advised = (
  { place, title, probability }: PartInQuestion,
  { weighed, advice }: Diagnosis,
): readonly Reason[] => {
  const [first = place] = weighed.order;
  if (first !== place) {
    const leader = suspectAt(first, weighed);
    return [
      { kind: 'part-not-leading', title, probability, leader: leader.title, leads: leader.probability },
    ];
  }
  if (advice === null) return [{ kind: 'part-not-weighed', title }];
  const conditions = failing(advice.conditions);
  return conditions.length === 0 ? [] : [{ kind: 'part-not-advised', title, conditions }];
};

/** Steps that replacing the part would bring or undo, and that no equipment of the shop can run. */
const unequipped = ({ title, component }: SuspectShare, ground: Ground): readonly Reason[] => {
  const { job, asOf, openIf } = ground;
  if (job.equipment === null || component === null) return [];
  const can = new Set(job.equipment.flatMap(({ does }) => does));
  const supposed: LogEntry = {
    stamp: { at: asOf, resolution: 0 },
    did: 'replaced',
    what: component,
    failed: false,
    found: null,
    waitsFor: null,
    note: null,
    closing: null,
    to: null,
    by: null,
    reason: null,
    order: job.log.length,
  };
  return openIf({ ...job, log: [...job.log, supposed] })
    .filter(({ needs }) => needs !== null && !can.has(needs))
    .map((step) => ({ kind: 'part-unequipped', title, step: step.title, needs: step.needs ?? '' }));
};

/** What must be so before a part is ordered. Where no part is in question, it holds. */
export const part = ({ is }: Extract<Fact, { fact: 'part' }>, ground: Ground): Answer => {
  const { job, diagnosis } = ground;
  if (diagnosis === null) return is === 'in-question' ? no() : yes();
  const parts = inQuestion(job, diagnosis.weighed);
  if (is === 'in-question') {
    const reasons = parts.map(({ title }): Reason => ({ kind: 'part-in-question', title }));
    return reasons.length > 0 ? yes(null, ...reasons) : no();
  }
  const reasons = parts.flatMap((one) => {
    if (is === 'blamed') return blamed(one, diagnosis.weighed, ground);
    return is === 'equipped' ? unequipped(one, ground) : advised(one, diagnosis);
  });
  return reasons.length === 0 ? yes() : no(...reasons);
};
