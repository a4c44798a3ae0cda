import type { Job, LogEntry } from '../job.ts';
import { keyOf, parseKey } from '../key.ts';
import type { PreparedPacks } from '../prepare/prepared-packs.ts';
import { isRepair, isWork } from '../steps/staleness.ts';
import { missingConfirmations, neverBySight } from '../suspects/confirmed.ts';
import type { Diagnosis } from '../suspects/diagnosis.ts';
import type { Hypothesis } from '../suspects/hypotheses.ts';
import type { Decisions } from './decisions.ts';
import { type PointingTest, pointingTests } from './pointing-tests.ts';
import { titleOf } from './titles.ts';

/** How a fault came to be confirmed: somebody saw it, a test that fits nothing else found it, or the advice stands. */
export type FaultProof =
  | { readonly by: 'sight'; readonly entry: LogEntry }
  | { readonly by: 'test'; readonly test: string; readonly found: string }
  | { readonly by: 'advice'; readonly probability: number };

/** A fault that is confirmed and that nobody has put right yet. */
export interface Fault {
  /** The component to work on: `linkage.LR`. */
  readonly component: string;
  readonly title: string;
  readonly proof: FaultProof;
  /** What its repair usually takes, and what its part costs, in the job's currency; 0 where no pack says. */
  readonly minutes: number;
  readonly amount: number;
  /** Whether a part is ordered for it. */
  readonly isPart: boolean;
  /** The name of the step that puts it right, such as a learn; null where it is repaired. */
  readonly step: string | null;
  /** Measurements that must come before, whatever an eye saw. */
  readonly lacks: readonly string[];
  /** The work on the same component after which it shows again; null where there was none. */
  readonly returned: LogEntry | null;
  /** Whether it was worked on so often to no avail that somebody has to decide what comes now. */
  readonly spent: boolean;
}

/** After so many repairs of one component that did not help, another one would not either. */
const mostRepairs = 2;

/** The step that answers for a component that is set up rather than repaired: the learn, the configuration, the mode. */
const stepFor = (component: string, { steps }: PreparedPacks): string | null =>
  steps.find(({ answeredBy }) =>
    answeredBy.some(
      ({ did, what }) =>
        (did.includes('calibrated') || did.includes('configured') || did.includes('adjusted')) &&
        (what ?? []).includes(component),
    ),
  )?.name ?? null;

/** Work that may have put a component right: any but taking it off its plug. */
const putsRight = (entry: LogEntry): boolean => isWork(entry) && entry.did !== 'disconnected';

/** Components that an eye saw at fault, and that nobody has repaired or found to be good since. */
const seenFaults = ({ log }: Job): ReadonlyMap<string, LogEntry> => {
  const seen = new Map<string, LogEntry>();
  for (const entry of log) {
    const { did, what, found, failed } = entry;
    if (what === null || failed) continue;
    if (did === 'inspected' && found === 'fault-seen') seen.set(what, entry);
    else if (did === 'inspected' && found === 'nothing-seen') seen.delete(what);
    else if (putsRight(entry)) seen.delete(what);
  }
  return seen;
};

/** A suspect that a test confirmed, where nothing else that can be repaired would make it find the same as often. */
const testProof = (
  hypothesis: Hypothesis,
  place: number,
  { weighed: { evidence } }: Diagnosis,
  tests: readonly PointingTest[],
): FaultProof | null => {
  const { suspect } = hypothesis;
  if (suspect === null || suspect.confirm.length === 0) return null;
  const telling = tests.find(
    ({ alone, test }) =>
      alone === place && suspect.confirm.some((one) => one.test === parseKey(test).base || one.test === test),
  );
  if (!telling || missingConfirmations(suspect.confirm, hypothesis.place, evidence).length > 0) return null;
  return { by: 'test', test: telling.test, found: telling.found };
};

interface Proven {
  readonly component: string;
  readonly proof: FaultProof;
}

const provenBySuspects = (diagnosis: Diagnosis): Proven[] => {
  const { weighed, advice } = diagnosis;
  const { hypotheses } = weighed.model;
  const tests = pointingTests(weighed);
  return hypotheses.flatMap((one, place): Proven[] => {
    if (one.suspect === null || !one.suspect.repaired) return [];
    const advised = advice?.met === true && advice.suspect === one.id && weighed.order[0] === place;
    const proof: FaultProof | null =
      testProof(one, place, diagnosis, tests) ??
      (advised ? { by: 'advice', probability: weighed.shares[place] ?? 0 } : null);
    return proof === null ? [] : [{ component: keyOf(one.suspect.component, one.place), proof }];
  });
};

const suspectFor = (component: string, diagnosis: Diagnosis | null): Hypothesis | undefined => {
  const { base, corner, axle } = parseKey(component);
  return diagnosis?.weighed.model.hypotheses.find(
    ({ suspect, place }) => suspect?.repaired && suspect.component === base && place === (corner ?? axle),
  );
};

/**
 * The faults of a job that are confirmed: seen by an eye, found by a test that fits nothing else, or advised. A
 * component that the customer declined is not among them.
 */
export const faultsOf = (
  job: Job,
  diagnosis: Diagnosis | null,
  { declined }: Decisions,
  prepared: PreparedPacks,
): Fault[] => {
  const proven = new Map<string, FaultProof>();
  for (const [component, entry] of seenFaults(job)) proven.set(component, { by: 'sight', entry });
  for (const { component, proof } of diagnosis ? provenBySuspects(diagnosis) : [])
    if (!proven.has(component)) proven.set(component, proof);
  if (declined.has('cost')) return [];
  return [...proven].flatMap(([component, proof]): Fault[] => {
    const own = suspectFor(component, diagnosis);
    const step = own?.suspect?.isPart === false ? stepFor(component, prepared) : null;
    const isDone = step === null ? isRepair : putsRight;
    const works = job.log.filter((entry) => isDone(entry) && entry.what === component);
    if (declined.has(component)) return [];
    const sight = proof.by === 'sight' && own?.suspect?.component === neverBySight;
    return [
      {
        component,
        title: titleOf(component, prepared.components),
        proof,
        minutes: own?.suspect?.wrongPart.minutes ?? 0,
        amount: own?.suspect?.wrongPart.amount ?? 0,
        isPart: own?.suspect?.isPart ?? true,
        step,
        lacks:
          sight && own?.suspect && diagnosis
            ? missingConfirmations(own.suspect.confirm, own.place, diagnosis.weighed.evidence)
            : [],
        returned: works.at(-1) ?? null,
        spent: works.length >= mostRepairs,
      },
    ];
  });
};
