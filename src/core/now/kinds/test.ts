import { openWaits } from '../../steps/waiting.ts';
import type { RankedTest } from '../../suspects/ranking.ts';
import { suspectAt } from '../../suspects/weigh.ts';
import type { Reason } from '../../worksheet-parts.ts';
import { type Command, choose, logged, say } from '../command.ts';
import type { Now } from '../now.ts';
import { isInQuestion, type NowGround } from '../now-ground.ts';

/** Bits that make a test worth doing where nothing is priced. */
const worthDoing = 0.05;

/** Whether a test is worth its minutes: it saves more than it costs, or the repair wants it on record. */
export const isPaying = ({ saves, confirms, bits }: RankedTest): boolean =>
  confirms || (saves === null ? bits >= worthDoing : saves > 0);

const inspected = 'inspected ';

/** The entry that records a test or a look, with what can be found. */
export const testCommand = (id: string, outcomes: readonly { readonly id: string }[]): Command => {
  const found = choose(
    'found',
    outcomes.map((outcome) => outcome.id),
  );
  return id.startsWith(inspected)
    ? logged('inspected', id.slice(inspected.length), found)
    : logged('tested', id, found);
};

const whyOf = ({ saves, confirms }: RankedTest, { diagnosis, job }: NowGround): Reason[] => {
  if (!diagnosis) return [];
  const { weighed } = diagnosis;
  const [first, second] = weighed.order.map((place) => suspectAt(place, weighed));
  const confirmed = diagnosis.advice?.conditions.some(({ id, met }) => id === 'confirmed' && met) ?? false;
  const named: Reason[] = [first, second].flatMap((one): Reason[] =>
    one === undefined || one.probability < 0.05
      ? []
      : [
          {
            kind: 'suspected',
            title: one.title,
            probability: one.probability,
            confirmed: one === first && confirmed,
          },
        ],
  );
  const worth: Reason =
    confirms && (saves === null || saves <= 0) && first
      ? { kind: 'confirms', title: first.title }
      : { kind: 'pays', saves, currency: job.costs.currency };
  return [...named, worth];
};

const toTest = (test: RankedTest, ground: NowGround): Now => ({
  kind: 'test',
  id: test.id,
  title: { kind: 'given', text: test.title },
  because: whyOf(test, ground),
  minutes: test.minutes,
  elapsed: test.elapsed,
  cautions: test.cautions,
  command: testCommand(test.id, outcomesOf(test.id, ground)),
  instead: test.id.startsWith(inspected) ? [] : [logged('skipped', test.id, say('reason'))],
  for: 'technician',
});

/** Every outcome of a test in its order; a ranked test holds only those that can come. */
const outcomesOf = (id: string, { diagnosis }: NowGround): readonly { readonly id: string }[] =>
  diagnosis?.weighed.evidence.probings.find((one) => one.id === id)?.test.outcomes ?? [];

/** Measurements that must come before the repair of a fault that an eye saw. */
const lacking = (ground: NowGround): Now | null => {
  const faults = ground.faults.filter(({ spent }) => !spent);
  const lacks = faults.flatMap((fault) => [...fault.lacks]);
  const probing = ground.diagnosis?.weighed.evidence.probings.find(
    ({ id, test }) =>
      lacks.includes(id) &&
      !ground.decisions.skipped.has(id) &&
      !test.acts.some((act) => ground.forbidden.has(act)),
  );
  const [fault] = faults;
  if (!probing || !fault) return null;
  const { id, test, cautions } = probing;
  return {
    kind: 'test',
    id,
    title: { kind: 'given', text: test.title },
    because: [{ kind: 'confirms', title: fault.title }],
    minutes: test.minutes + (test.setUp?.minutes ?? 0),
    elapsed: test.elapsed,
    cautions,
    command: testCommand(id, test.outcomes),
    instead: [logged('skipped', id, say('reason'))],
    for: 'technician',
  };
};

/** The next test that is worth its minutes. */
export const nextPaying = ({ diagnosis, job }: NowGround): RankedTest | null => {
  if (!diagnosis || diagnosis.advice?.met) return null;
  const waited = openWaits(job).map(({ what }) => what);
  return diagnosis.next.tests.find((test) => isPaying(test) && !waited.includes(test.id)) ?? null;
};

/** The next test that pays, where anything is wrong that it could explain. */
export const nextTest = (ground: NowGround): RankedTest | null =>
  isInQuestion(ground) ? nextPaying(ground) : null;

/** The next test, or the measurement that must come before the repair of a fault that an eye saw. */
export const test = (ground: NowGround): Now | null => {
  const next = nextTest(ground);
  return next ? toTest(next, ground) : lacking(ground);
};
