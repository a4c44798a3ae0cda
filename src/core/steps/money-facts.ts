import type { Equipment, Job } from '../job.ts';
import type { Reason } from '../worksheet-parts.ts';
import type { Fact } from './condition.ts';
import { costState } from './costs.ts';
import { type Answer, type Ground, no, yes } from './ground.ts';
import { matches } from './log-entries.ts';

type Asked<K extends Fact['fact']> = Extract<Fact, { fact: K }>;

/** Whether somebody authorised the cost and named no amount, so that there is nothing to exceed. */
export const isSaidSo = ({ log }: Pick<Job, 'log'>): boolean => {
  const last = log.findLast(
    (entry) =>
      !entry.failed &&
      (matches(entry, { did: ['authorised', 'declined'], what: ['cost'] }) ||
        matches(entry, { did: ['completed'], what: ['authorise-cost'] })),
  );
  return last !== undefined && last.did !== 'declined';
};

/** Whether the shop has a standing authority for an amount. */
export const isStanding = ({ terms: { standing } }: Pick<Job, 'terms'>, amount: number): boolean =>
  standing !== null && amount <= standing.upTo;

const standing = ({ terms }: Job): Reason[] =>
  terms.standing === null
    ? []
    : [{ kind: 'standing-authority', by: terms.standing.by, upTo: terms.standing.upTo }];

/** Whether the cost was authorised, or is within what was. */
export const cost = ({ is }: Asked<'cost'>, { job }: Ground): Answer => {
  const { total, authorised, unknown } = costState(job.costs);
  if (is === 'authorised') {
    if (authorised === null) {
      if (isStanding(job, total)) return yes(null, ...standing(job));
      return isSaidSo(job) ? yes() : no({ kind: 'cost-not-authorised' });
    }
    const at = Math.max(...job.costs.authorised.map((one) => one.at));
    return yes(at, { kind: 'logged', did: 'authorised', what: 'cost', at });
  }
  if (authorised === null && isSaidSo(job)) return yes();
  const [what] = unknown;
  if (what !== undefined) return no({ kind: 'cost-unknown', what });
  if (total === 0 || isStanding(job, total)) return yes();
  if (authorised === null) return no({ kind: 'cost-not-authorised' });
  // A cent of rounding in somebody's sum is not a breach.
  return total > authorised + job.terms.tolerance + 0.005
    ? no({ kind: 'cost-above', total, authorised, currency: job.costs.currency })
    : yes();
};

/** Equipment that has a capability. */
const ableFor = (capability: string, { equipment }: Job): readonly Equipment[] =>
  equipment?.filter(({ does }) => does.includes(capability)) ?? [];

/** Paid access is open now, and for as long as the steps that need it still take. */
export const access = ({ capability }: Asked<'access'>, { job, asOf, steps, open }: Ground): Answer => {
  const able = ableFor(capability, job);
  if (able.some((one) => one.access === null)) return yes();
  const lines = job.costs.lines.filter(({ kind, what }) => kind === 'access' && what === capability);
  if (able.length === 0 && lines.length === 0) return yes();
  const minutes = steps
    .filter(({ needs, name }) => needs === capability && open.some((one) => one.name === name))
    .reduce((sum, step) => sum + step.minutes, 0);
  const isOpen = lines.some(
    ({ from, ends }) => (from ?? asOf) <= asOf && (ends === null || ends >= asOf + minutes * 60_000),
  );
  if (isOpen) return yes();
  const ends = lines.flatMap((line) => line.ends ?? []);
  const [first] = able;
  return no({
    kind: 'access-closed',
    capability,
    equipment: first?.name ?? null,
    ended: ends.length > 0 ? Math.max(...ends) : null,
    amount: first?.access?.amount ?? null,
    currency: job.costs.currency,
  });
};
