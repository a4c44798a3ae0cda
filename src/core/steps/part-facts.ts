import type { Job, LogEntry } from '../job.ts';
import { keyOf } from '../key.ts';
import { failing } from '../suspects/advice.ts';
import type { Diagnosis } from '../suspects/diagnosis.ts';
import { forAndAgainst } from '../suspects/ledger.ts';
import type { Suspect } from '../suspects/model.ts';
import type { SuspectShare } from '../suspects/ranking.ts';
import type { SuspectModel } from '../suspects/suspect-model.ts';
import { suspectAt } from '../suspects/weigh.ts';
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
  readonly suspect: Suspect;
  /** Its place among the hypotheses. */
  readonly place: number;
}

/** A part that nothing speaks for, since nothing is out. */
const unsuspected = ({ hypotheses }: SuspectModel, place: number): SuspectShare => {
  const one = hypotheses[place];
  return {
    id: one?.id ?? '',
    title: one?.title ?? '',
    component: one?.suspect ? keyOf(one.suspect.component, one.place) : null,
    isPart: one?.suspect?.isPart ?? false,
    probability: 0,
  };
};

/** What was ordered and is a suspect, since it may still go back; else the leading suspect, where it is a part. */
const inQuestion = ({ job, diagnosis, model }: Ground): readonly PartInQuestion[] => {
  const ordered = awaited(job);
  const order = diagnosis?.weighed.order ?? model.hypotheses.map((_, place) => place);
  const suspects = order.flatMap((place): PartInQuestion[] => {
    const suspect = model.hypotheses[place]?.suspect;
    if (!suspect) return [];
    const share = diagnosis ? suspectAt(place, diagnosis.weighed) : unsuspected(model, place);
    return [{ suspect, place, ...share }];
  });
  // Of those that one component stands for, the likeliest speaks.
  const own = suspects.filter(
    ({ component, suspect }, index) =>
      component !== null &&
      suspect.repaired &&
      ordered.has(component) &&
      suspects.findIndex((other) => other.component === component && other.suspect.repaired) === index,
  );
  if (own.length > 0) return own;
  const [first] = suspects;
  const leads = diagnosis !== null && first?.place === diagnosis.weighed.order[0];
  return leads && first?.isPart ? [first] : [];
};

/** A fault that an eye saw, or that a test found which fits nothing else: it needs no advice. */
const isProven = ({ component }: PartInQuestion, { faults }: Ground): boolean =>
  faults.some(
    (fault) => fault.component === component && fault.proof.by !== 'advice' && fault.lacks.length === 0,
  );

const blamed = (part: PartInQuestion, { diagnosis, findings }: Ground): readonly Reason[] => {
  const { title, place } = part;
  if (diagnosis === null) return [{ kind: 'part-not-blamed', title, tooClose: [] }];
  const { model, rows } = diagnosis.weighed;
  const { for: pro } = forAndAgainst(place, model.hypotheses, rows);
  const speaking = findings.all.filter(({ id, current }) => current && pro.includes(id));
  if (speaking.some(({ verdict }) => verdict === 'out')) return [];
  const tooClose = speaking
    .filter(({ verdict }) => verdict === 'too-close')
    .map(({ checkTitle, subject }) => `${checkTitle}, ${subject}`);
  return [{ kind: 'part-not-blamed', title, tooClose }];
};

const advised = (
  { place, title, probability }: PartInQuestion,
  diagnosis: Diagnosis | null,
): readonly Reason[] => {
  // That nothing is out says enough.
  if (diagnosis === null) return [];
  const { weighed, advice } = diagnosis;
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
    despite: null,
    order: job.log.length,
  };
  return openIf({ ...job, log: [...job.log, supposed] })
    .filter(({ needs }) => needs !== null && !can.has(needs))
    .map((step) => ({ kind: 'part-unequipped', title, step: step.title, needs: step.needs ?? '' }));
};

/** What must be so before a part is ordered. Where no part is in question, it holds. */
export const part = ({ is }: Extract<Fact, { fact: 'part' }>, ground: Ground): Answer => {
  const parts = inQuestion(ground);
  if (is === 'in-question' || is === 'ordered') {
    if (is === 'in-question' && ground.diagnosis === null) return no();
    if (is === 'ordered' && awaited(ground.job).size === 0) return no();
    const reasons = parts.map(({ title }): Reason => ({ kind: 'part-in-question', title }));
    return reasons.length > 0 ? yes(null, ...reasons) : no();
  }
  const reasons = parts.flatMap((one) => {
    if (is === 'equipped') return unequipped(one, ground);
    if (isProven(one, ground)) return [];
    return is === 'blamed' ? blamed(one, ground) : advised(one, ground.diagnosis);
  });
  return reasons.length === 0 ? yes() : no(...reasons);
};

/** What a part costs: as the job's costs have it, else about what its pack says that a wrong one loses. */
const priceOf = ({ component, suspect }: PartInQuestion, { costs }: Job): number =>
  costs.lines.find(({ kind, what, amount }) => kind === 'part' && what === component && amount !== null)
    ?.amount ?? suspect.wrongPart.amount;

/** Whether the order of what is in question must wait: it is dear, or coded to the vehicle. Else that is a reminder. */
export const orderHolds = (ground: Ground): boolean =>
  inQuestion(ground).some(
    (one) => one.suspect.isCoded || priceOf(one, ground.job) > ground.job.terms.orderHold,
  );
