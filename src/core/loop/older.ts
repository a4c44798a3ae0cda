import { type Finding, weightOrder } from '../finding.ts';
import type { Job, LogEntry } from '../job.ts';
import { keyOf, parseKey } from '../key.ts';
import type { Channel } from '../pack.ts';
import type { Diagnosis } from '../suspects/diagnosis.ts';
import { forAndAgainst } from '../suspects/ledger.ts';

/** Out at hold or look, and not accepted. */
export const isWrong = ({ verdict, weight, waived }: Finding): boolean =>
  verdict === 'out' && waived === null && weightOrder[weight] <= weightOrder.look;

/** Whether a finding was read after an entry. */
export const isReadAfter = ({ snapshot }: Finding, { stamp }: LogEntry, { snapshots }: Job): boolean =>
  (snapshots.find(({ id }) => id === snapshot)?.stamp.at ?? 0) > stamp.at;

/** Ids of the findings that the suspects of a component explain. */
const explainedBy = (component: string, diagnosis: Diagnosis | null): ReadonlySet<string> => {
  if (diagnosis === null) return new Set();
  const { model, rows } = diagnosis.weighed;
  return new Set(
    model.hypotheses.flatMap(({ suspect, place: where }, place) =>
      suspect !== null && keyOf(suspect.component, where) === component
        ? [...forAndAgainst(place, model.hypotheses, rows).for]
        : [],
    ),
  );
};

/**
 * What was out before the work and was not read since. All of it is read again before anything else is looked for, since
 * one fault shows in many places. What came and went counts where the component explains it, and what takes a night where
 * its readings depend on such a part: the night is repeated later.
 */
export const olderFor = (
  component: string,
  since: LogEntry,
  job: Job,
  findings: readonly Finding[],
  channels: ReadonlyMap<string, Channel>,
  diagnosis: Diagnosis | null,
): Finding[] => {
  const wrong = findings.filter(
    (one) =>
      isWrong(one) &&
      (one.current || one.intermittent) &&
      one.snapshot !== null &&
      !isReadAfter(one, since, job),
  );
  if (wrong.length === 0) return [];
  const own = explainedBy(component, diagnosis);
  const { base } = parseKey(component);
  const dependsOnSuch = (key: string): boolean =>
    channels.get(parseKey(key).base)?.depends.includes(base) ?? false;
  return wrong.filter(
    ({ id, intermittent, moment, channels: keys }) =>
      own.has(id) || (!intermittent && (!moment || keys.some(dependsOnSuch))),
  );
};
