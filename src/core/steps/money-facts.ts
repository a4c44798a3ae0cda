import type { Fact } from './condition.ts';
import { costState } from './costs.ts';
import { type Answer, type Ground, no, yes } from './ground.ts';
import { matches } from './log-entries.ts';

type Asked<K extends Fact['fact']> = Extract<Fact, { fact: K }>;

/** Whether the cost was authorised, or is within what was. */
export const cost = ({ is }: Asked<'cost'>, { job }: Ground): Answer => {
  const { total, authorised, unknown } = costState(job.costs);
  if (is === 'authorised') {
    const newest = job.costs.authorised.map(({ at }) => at);
    if (authorised === null) return no({ kind: 'cost-not-authorised' });
    const at = Math.max(...newest);
    return yes(at, { kind: 'logged', did: 'authorised', what: 'cost', at });
  }
  const [what] = unknown;
  if (what !== undefined) return no({ kind: 'cost-unknown', what });
  if (total === 0) return yes();
  // Somebody authorised it and named no amount: there is nothing to exceed.
  const said = job.log.some(
    (entry) =>
      !entry.failed &&
      (matches(entry, { did: ['authorised'], what: ['cost'] }) ||
        matches(entry, { did: ['completed'], what: ['authorise-cost'] })),
  );
  if (authorised === null) return said ? yes() : no({ kind: 'cost-not-authorised' });
  // A cent of rounding in somebody's sum is not a breach.
  return total > authorised + 0.005
    ? no({ kind: 'cost-above', total, authorised, currency: job.costs.currency })
    : yes();
};

/** Paid access is open now, and for as long as the steps that need it still take. */
export const access = ({ capability }: Asked<'access'>, { job, asOf, steps, open }: Ground): Answer => {
  const able = job.equipment?.filter(({ does }) => does.includes(capability)) ?? [];
  if (able.some(({ paidAccess }) => !paidAccess)) return yes();
  const lines = job.costs.lines.filter(({ kind, what }) => kind === 'access' && what === capability);
  if (able.length === 0 && lines.length === 0) return yes();
  const minutes = steps
    .filter(({ needs, name }) => needs === capability && open.some((one) => one.name === name))
    .reduce((sum, step) => sum + step.minutes, 0);
  const isOpen = lines.some(
    ({ from, ends }) => (from ?? asOf) <= asOf && (ends === null || ends >= asOf + minutes * 60_000),
  );
  return isOpen ? yes() : no({ kind: 'access-closed', capability, equipment: able[0]?.name ?? null });
};
