import type { Verb } from '../../core/job.ts';
import type { Place } from '../../core/key.ts';
import { parseKey } from '../../core/key.ts';
import { placeLacking } from '../../input/job/layout-places.ts';
import type { Choice } from '../../input/typed/typed.ts';
import { outcomesOf, outcomesText, typedVerb, typedWhat } from '../../input/typed/typed-log.ts';
import type { Fault } from '../../report/words/fault-words.ts';
import type { OpenJob } from '../open-job.ts';
import { type Asking, askChoice } from './ask-choice.ts';

/** What an entry is about and what was found, once nothing of it is open; or why nothing can be written. */
export type Asked =
  | { readonly what: readonly string[]; readonly found: string | undefined }
  | { readonly faults: readonly Fault[] };

const stopped: Asked = { faults: [{ message: 'stopped; nothing was written', hint: null }] };

/** The choices that the vehicle of a job has a place for. */
const onVehicle = (choices: readonly Choice[], { read }: OpenJob): readonly Choice[] => {
  const vehicle = read.job?.vehicle;
  if (!vehicle) return choices;
  const fitting = choices.filter(({ name }) => {
    const { corner, axle } = parseKey(name);
    const place: Place | null = corner ?? axle;
    return place === null || placeLacking(place, vehicle) === null;
  });
  return fitting.length > 0 ? fitting : choices;
};

/** Each thing by its name: where it may be one of a few, somebody is asked which. */
const askWhat = async (
  did: Verb,
  what: readonly string[],
  opened: OpenJob,
  asking: Asking,
): Promise<readonly string[] | null> => {
  const { packs } = opened.read.prepared;
  const names: string[] = [];
  for (const word of what) {
    const typed = typedWhat(word, did, packs);
    const choices = typed.ok ? [] : onVehicle(typed.fault.choices ?? [], opened);
    if (choices.length === 0) {
      names.push(word);
      continue;
    }
    const name = await askChoice(`which ${word}`, choices, asking);
    if (name === null) return null;
    names.push(name);
  }
  return names;
};

/**
 * Asks for what a log entry leaves open, on a terminal: which of several things, at which corner, and what a test
 * found. Where nobody can be asked, the entry stands as it was typed, and `--found` without a word is told.
 *
 * @param found true where the option was given without a word
 * @param asking null where nobody can be asked
 */
export const askForLog = async (
  did: string,
  what: readonly string[],
  found: string | true | undefined,
  opened: OpenJob,
  asking: Asking | null,
): Promise<Asked> => {
  const verb = typedVerb(did);
  const given = typeof found === 'string' ? found : undefined;
  if (!verb.ok) return { what, found: given };
  const isNote = verb.value === 'noted';
  const names = asking && !isNote ? await askWhat(verb.value, what, opened, asking) : what;
  if (names === null) return stopped;
  const finds = verb.value === 'tested' || verb.value === 'inspected';
  if (given !== undefined || (found === undefined && !finds)) return { what: names, found: given };
  const { packs } = opened.read.prepared;
  const named = names.flatMap((one) => {
    const typed = typedWhat(one, verb.value, packs);
    return typed.ok ? [typed.value] : [];
  });
  const outcomes = outcomesOf(verb.value, named, packs);
  if (outcomes !== null && asking) {
    const choices = outcomes.map(({ id, title }) => ({ name: id, title }));
    const answer = await askChoice('found', choices, asking, true);
    return answer === null ? stopped : { what: names, found: answer === '' ? undefined : answer };
  }
  if (found === undefined) return { what: names, found };
  const hint = outcomes === null ? 'write it in a word or two' : `it can be ${outcomesText(outcomes)}`;
  return { faults: [{ typed: '--found', message: 'there is no word after it', hint }] };
};
