import type { Job, LogEntry } from '../job.ts';
import { failing } from '../suspects/advice.ts';
import type { RankedSuspect, Ranking } from '../suspects/ranking.ts';
import type { Reason } from '../worksheet.ts';
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

/** What was ordered and is a suspect, since it may still go back; else the leading suspect, where it is a part. */
const inQuestion = (job: Job, { suspects }: Ranking): readonly RankedSuspect[] => {
  const ordered = awaited(job);
  const own = suspects.filter(({ component }) => component !== null && ordered.has(component));
  return own.length > 0 ? own : suspects.slice(0, 1).filter(({ isPart }) => isPart);
};

const blamed = ({ title, for: pro }: RankedSuspect, { findings }: Ground): readonly Reason[] => {
  const speaking = findings.all.filter(({ id, current }) => current && pro.includes(id));
  if (speaking.some(({ verdict }) => verdict === 'out')) return [];
  const tooClose = speaking
    .filter(({ verdict }) => verdict === 'too-close')
    .map(({ checkTitle, subject }) => `${checkTitle}, ${subject}`);
  return [{ kind: 'part-not-blamed', title, tooClose }];
};

const advised = (suspect: RankedSuspect, { suspects: [leader], advice }: Ranking): readonly Reason[] => {
  const { id, title, probability } = suspect;
  if (leader && leader.id !== id) {
    return [
      { kind: 'part-not-leading', title, probability, leader: leader.title, leads: leader.probability },
    ];
  }
  if (advice === null) return [{ kind: 'part-not-weighed', title }];
  const conditions = failing(advice.conditions);
  return conditions.length === 0 ? [] : [{ kind: 'part-not-advised', title, conditions }];
};

/** Steps that replacing the part would bring or undo, and that no equipment of the shop can run. */
const unequipped = ({ title, component }: RankedSuspect, ground: Ground): readonly Reason[] => {
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

/** What must be so before a part is ordered. Of nothing in question everything holds. */
export const part = ({ is }: Extract<Fact, { fact: 'part' }>, ground: Ground): Answer => {
  const { ranking } = ground;
  const parts = ranking === null ? [] : inQuestion(ground.job, ranking);
  if (is === 'in-question') {
    const reasons = parts.map(({ title }): Reason => ({ kind: 'part-in-question', title }));
    return reasons.length > 0 ? yes(null, ...reasons) : no();
  }
  const reasons = parts.flatMap((one) => {
    if (is === 'blamed') return blamed(one, ground);
    return is === 'equipped' ? unequipped(one, ground) : ranking === null ? [] : advised(one, ranking);
  });
  return reasons.length === 0 ? yes() : no(...reasons);
};
