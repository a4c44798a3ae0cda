import { layouts, vehicleWords } from '../../core/job.ts';
import type { Component } from '../../core/pack.ts';
import { isZone } from '../../time/zones.ts';
import { zoneHint } from '../job/read-time.ts';
import { quoted } from '../quoted.ts';
import { right, type Typed, wrong } from '../typed/typed.ts';
import { typedQuantity } from '../typed/typed-quantity.ts';
import { typedText } from '../typed/typed-text.ts';
import { typedWord } from '../typed/typed-word.ts';
import { senseWords } from './sensor-sense.ts';
import { symptomsIn, typedSymptoms } from './symptom-words.ts';
import { typedWork } from './typed-work.ts';

/** What helps to read a field: what else was said, and what the packs know. */
export interface FieldContext {
  /** Of the job's packs; null where those are not known. */
  readonly components: readonly Component[] | null;
}

/** Something that a fresh job file says, asked for or given as an option. */
export interface Field {
  readonly name: FieldName;
  /** As a person is asked for it; null for what only options say. */
  readonly question: string | null;
  /** The words to choose from; none where a text is wanted. */
  readonly words: readonly string[];
  /** What stands behind the words: `Enter if not known`. */
  readonly note: string | null;
  readonly required: boolean;
  /** The answer that Enter keeps, by what was said before; empty where Enter leaves it out. */
  readonly usual: (values: Values) => string;
  readonly read: (typed: string, context: FieldContext) => Typed<string>;
}

export const fieldNames = [
  'vehicle',
  'complaint',
  'symptoms',
  'recent-work',
  'layout',
  'battery',
  'charging',
  'sensor-sense',
  'system',
  'packs',
  'job',
  'title',
  'zone',
  'sensor-signal',
  'distance',
] as const;
export type FieldName = (typeof fieldNames)[number];

/** What was said of a fresh job, by field; as it was understood. */
export type Values = Partial<Record<FieldName, string>>;

const plainText =
  (most: number) =>
  (typed: string): Typed<string> => {
    const one = typed.replace(/\s+/gu, ' ').trim();
    return one === ''
      ? wrong(typed, 'nothing is written here', 'write it in a few words')
      : typedText(one, typed, most);
  };

const oneOf =
  (words: readonly string[], what: string) =>
  (typed: string): Typed<string> =>
    typedWord(typed, words, what);

const zone = (typed: string): Typed<string> =>
  isZone(typed.trim())
    ? right(typed.trim())
    : wrong(typed, `${quoted(typed)} is not a time zone`, zoneHint(typed.trim()));

const distance = (typed: string): Typed<string> => {
  const quantity = typedQuantity(typed, 'km');
  return quantity.ok ? right(quantity.value.text) : quantity;
};

/** `a@1, b` as `a@1,b`; whether such packs exist is seen once the file is read. */
const packs = (typed: string): Typed<string> => {
  const refs = typed
    .toLowerCase()
    .split(/[\s,[\]]+/u)
    .filter((ref) => ref !== '');
  const bad = refs.find((ref) => !/^[a-z][a-z0-9-]*(?:@\S+)?$/u.test(ref));
  if (bad !== undefined)
    return wrong(typed, `${quoted(bad)} does not name a pack`, 'write it like position-signals@1');
  return refs.length === 0
    ? wrong(typed, 'no pack is named', 'write it like position-signals@1, supply-charging@1')
    : right(refs.join(','));
};

const unknown = 'Enter if not known';

const nothing = (): string => '';

const field = (
  name: FieldName,
  read: Field['read'],
  { question = null, words = [], note = null, required = false, usual = nothing }: Partial<Field> = {},
): Field => ({ name, question, words, note, required, usual, read });

/** Every field: first those asked for, in the order in which a technician knows them. */
export const fields: readonly Field[] = [
  field('vehicle', plainText(120), { question: 'vehicle, as the workshop calls it', required: true }),
  field('complaint', plainText(4000), {
    question: 'what the driver says',
    note: 'Enter if nothing',
  }),
  field('symptoms', typedSymptoms, {
    question: 'where and how',
    note: 'words such as LR, low, after-standing, hiss',
    usual: ({ complaint = '' }) => symptomsIn(complaint),
  }),
  field('recent-work', (typed, { components }) => typedWork(typed, components), {
    question: 'worked on before this visit',
    note: 'such as sensor.RR, battery, front',
  }),
  field('layout', oneOf(layouts, 'a layout'), {
    question: 'layout',
    words: layouts,
    usual: () => layouts[0],
  }),
  field('battery', oneOf(vehicleWords.battery, 'a kind of battery'), {
    question: 'battery',
    note: unknown,
    words: vehicleWords.battery,
  }),
  field('charging', oneOf(vehicleWords.charging, 'a kind of charging'), {
    question: 'charging',
    note: unknown,
    words: vehicleWords.charging,
  }),
  field('sensor-sense', oneOf(senseWords, 'a sense of the sensors'), {
    question: 'sensor-sense, volts as the body rises',
    note: unknown,
    words: senseWords,
  }),
  field('system', (typed) =>
    typedWord(
      /^\d+$/u.test(typed.trim()) ? `${typed.trim()} V` : typed,
      vehicleWords.system,
      'a supply system',
    ),
  ),
  field('packs', packs),
  field('job', plainText(120)),
  field('title', plainText(200)),
  field('zone', zone),
  field('sensor-signal', oneOf(vehicleWords['sensor-signal'], 'a kind of sensor signal')),
  field('distance', distance),
];
