import { closings, layouts, vehicleWords, verbs } from '../../core/job.ts';
import { senseWords } from '../../input/fresh/sensor-sense.ts';
import { allSymptomWords } from '../../input/fresh/symptom-words.ts';
import { outcomesOf } from '../../input/typed/typed-log.ts';
import { candidate, type Wanted, words } from './candidate.ts';
import type { Names } from './names.ts';
import type { Place } from './place.ts';
import type { OptionShape } from './shape.ts';
import { packsOf, rulesOf, type Slot } from './slot.ts';

/** What the tests on the line can find. */
const outcomes: Slot = async (place, names) => {
  const packs = await packsOf(place, names);
  const did = verbs.find((one) => one === place.given[1]) ?? 'tested';
  const found = outcomesOf(did, place.given.slice(2), packs) ?? [];
  return { kind: 'words', candidates: found.map(({ id, title }) => candidate(id, title)) };
};

/** Packs as a job names them: any version of the newest that breaks nothing. */
const packRefs: Slot = async (place, names) => {
  const found = await names.packNames(rulesOf(place));
  return words(found.map(({ id, versions }) => `${id}@${(versions[0] ?? '').split('.')[0]}`));
};

/** Values that an option takes from a list which its declaration does not hold. */
const known: Readonly<Record<string, Slot>> = {
  'log --found': outcomes,
  'log --result': async ({ given }) => words(given[1] === 'closed' ? closings : ['passed', 'failed']),
  'new --layout': async () => words(layouts),
  'new --system': async () => words(vehicleWords.system),
  'new --battery': async () => words(vehicleWords.battery),
  'new --charging': async () => words(vehicleWords.charging),
  'new --sensor-sense': async () => words(senseWords),
  'new --symptoms': async () => words(allSymptomWords),
  'new --sensor-signal': async () => words(vehicleWords['sensor-signal']),
  'new --packs': packRefs,
};

const declared = ({ value, choices }: OptionShape, alone: boolean): Wanted => {
  if (choices.length > 0) return words(choices);
  // In one word with its option a shell's own list of files would not know where the name begins.
  if (!alone) return words([]);
  if (value === 'dir') return { kind: 'folders' };
  return value === 'file' ? { kind: 'files' } : words([]);
};

/** What may stand as the value of an option, alone after it or in one word with it. */
export const optionValueWanted = async (option: OptionShape, place: Place, names: Names): Promise<Wanted> => {
  const { path, optionPart } = place;
  const key = `${path} ${option.flags.at(-1)}`;
  const slot = Object.hasOwn(known, key) ? known[key] : undefined;
  const found = slot ? await slot(place, names) : declared(option, optionPart === '');
  return found.kind === 'words'
    ? {
        kind: 'words',
        candidates: found.candidates.map(({ value, about }) => candidate(optionPart + value, about)),
      }
    : found;
};
