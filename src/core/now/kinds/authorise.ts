import { costState } from '../../steps/costs.ts';
import { isSaidSo, isStanding } from '../../steps/money-facts.ts';
import type { Reason } from '../../worksheet-parts.ts';
import { logged, say } from '../command.ts';
import type { Now } from '../now.ts';
import { type NowGround, stepNamed } from '../now-ground.ts';
import { decline } from './decide.ts';

/** What the repair of the confirmed faults will cost about, for those that the job's costs do not name. */
const estimate = ({ faults, job, diagnosis }: NowGround): number => {
  const rate = job.costs.labourRate ?? diagnosis?.weighed.stakes?.rate ?? 0;
  const priced = new Set(job.costs.lines.map(({ what }) => what));
  return faults
    .filter(({ component, spent }) => !spent && !priced.has(component))
    .reduce((sum, { amount, minutes }) => sum + amount + (minutes / 60) * rate, 0);
};

/** What the release wants of the costs. */
const moneyReasons = ({ holdPoints }: NowGround): Reason[] =>
  holdPoints
    .flatMap(({ reasons }) => [...reasons])
    .filter(({ kind }) => kind === 'cost-above' || kind === 'cost-unknown' || kind === 'cost-not-authorised');

/** Money is wanted: before a repair, or because what was done costs more than was allowed. */
export const authorise = (ground: NowGround): Now | null => {
  const { job, faults, decisions } = ground;
  const step = stepNamed('authorise-cost', ground);
  const isAsked = step?.state === 'ready' || step?.state === 'waiting';
  const above = moneyReasons(ground);
  const isMore = above.some(({ kind }) => kind !== 'cost-not-authorised');
  const { total } = costState(job.costs);
  const about = estimate(ground);
  const isOpen = job.costs.authorised.length === 0 && !isSaidSo(job) && !isStanding(job, total + about);
  const isNew = faults.some(({ spent }) => !spent) && isOpen;
  if (decisions.declined.has('cost') || (!isAsked && !isNew && !isMore)) return null;
  const amount = Math.ceil(total + about);
  if (amount === 0 && !isAsked && !isMore) return null;
  const unknown = above.find((reason) => reason.kind === 'cost-unknown');
  const [fault] = faults;
  return {
    kind: 'authorise',
    id: step?.id ?? 'authorise-cost',
    title: {
      kind: 'authorise',
      amount: amount > 0 ? amount : null,
      currency: job.costs.currency,
      about: about > 0,
    },
    because: [
      ...above,
      ...faults.map(({ title }): Reason => ({ kind: 'repair-wanted', title })),
      ...(isAsked ? (step?.because ?? []) : []),
    ],
    minutes: step?.minutes ?? 0,
    elapsed: 0,
    cautions: [],
    command:
      unknown?.kind === 'cost-unknown'
        ? { kind: 'edit', at: `costs: amount of ${unknown.what}` }
        : logged(
            'authorised',
            'cost',
            { name: 'amount', value: { kind: 'amount', about: amount > 0 ? amount : null } },
            say('by'),
          ),
    instead: [fault ? decline(fault.component) : logged('declined', 'cost', say('by'))],
    for: 'desk',
  };
};
