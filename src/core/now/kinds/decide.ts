import { proofReasons } from '../../loop/fault-reasons.ts';
import { findingReason } from '../../steps/reasons.ts';
import { suspectAt } from '../../suspects/weigh.ts';
import type { Reason } from '../../worksheet-parts.ts';
import { type Command, logged, say } from '../command.ts';
import type { Now } from '../now.ts';
import { isTroubled, type NowGround } from '../now-ground.ts';
import { nextPaying } from './test.ts';

/** To give the vehicle to somebody else, who goes on. */
export const passOn: Command = logged('passed-on', 'vehicle', say('to'), say('by'));

/** A repair that the customer does not want. */
export const decline = (component: string): Command => logged('declined', component, say('by'));

const leading = ({ diagnosis }: NowGround) => {
  const [place] = diagnosis?.weighed.order ?? [];
  return diagnosis && place !== undefined ? suspectAt(place, diagnosis.weighed) : null;
};

/** Who decides, and about what: pass the vehicle on, decline the repair, or accept a finding with a reason. */
export const toDecide = (about: readonly string[], because: readonly Reason[], ground: NowGround): Now => {
  const { troubles, retests } = ground;
  // What was to be read again and cannot be may be accepted as well.
  const unread = retests.flatMap(({ older }) => [...older]);
  const stale = ground.findings.filter(
    ({ stale, newest, moment, waived }) => stale && newest && !moment && !waived,
  );
  const findings = troubles.findings.length > 0 ? troubles.findings : [...unread, ...stale];
  const component = ground.faults[0]?.component ?? leading(ground)?.component ?? null;
  return {
    kind: 'decide',
    id: 'decide',
    title: { kind: 'decide', about },
    because,
    minutes: 0,
    elapsed: 0,
    cautions: [],
    command: passOn,
    instead: [
      ...(component === null ? [] : [decline(component)]),
      ...[...new Set(findings.map(({ check, subject }) => `${check}:${subject}`))].map(
        (finding): Command => ({ kind: 'waive', finding }),
      ),
    ],
    for: 'desk',
  };
};

/** The vehicle goes to somebody who may work on it, since these packs do not apply to it. */
export const handOn = (): Now => ({
  kind: 'decide',
  id: 'decide',
  title: { kind: 'pass-on' },
  because: [{ kind: 'stated', what: 'shared-with-brakes' }],
  minutes: 0,
  elapsed: 0,
  cautions: [],
  command: passOn,
  instead: [],
  for: 'desk',
});

/** Something is wrong, and neither advice nor a test nor a fault that can be put right says what to do about it. */
export const decide = (ground: NowGround): Now | null => {
  const { troubles, faults, diagnosis } = ground;
  const spent = faults.filter((fault) => fault.spent);
  if (spent.length < faults.length || (spent.length === 0 && !isTroubled(ground))) return null;
  if (nextPaying(ground) !== null) return null;
  const leader = leading(ground);
  const reasons: Reason[] = [
    ...spent.flatMap(proofReasons),
    ...troubles.findings.map(findingReason),
    ...troubles.tests.map(({ title, found }): Reason => ({ kind: 'test-found', title, found })),
  ];
  const why: Reason = diagnosis ? { kind: 'no-test-pays' } : { kind: 'not-blamed' };
  const suspected: Reason[] =
    leader === null
      ? []
      : [{ kind: 'suspected', title: leader.title, probability: leader.probability, confirmed: false }];
  const about = [
    ...spent.map(({ title }) => title),
    ...troubles.findings.map(({ checkTitle }) => checkTitle),
    ...troubles.tests.map(({ title }) => title),
  ];
  return toDecide([...new Set(about)], [why, ...suspected, ...reasons], ground);
};
