import { layouts, vehicleWords } from '../../core/job.ts';
import { isZone } from '../../time/zones.ts';
import { zoneHint } from '../job/read-time.ts';
import { quoted } from '../quoted.ts';
import { right, type Typed, wrong } from '../typed/typed.ts';
import { typedQuantity } from '../typed/typed-quantity.ts';
import { typedText } from '../typed/typed-text.ts';
import { typedWord } from '../typed/typed-word.ts';

/** Something that a fresh job file says, asked for or given as an option. */
export interface Field {
  readonly name: FieldName;
  /** As a person is asked for it; null for what only options say. */
  readonly question: string | null;
  readonly required: boolean;
  readonly read: (typed: string) => Typed<string>;
}

export const fieldNames = [
  'vehicle',
  'layout',
  'system',
  'battery',
  'charging',
  'complaint',
  'packs',
  'job',
  'title',
  'zone',
  'sensor-signal',
  'distance',
] as const;
export type FieldName = (typeof fieldNames)[number];

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

/** Every field, those asked for first and in the order in which they are. */
export const fields: readonly Field[] = [
  { name: 'vehicle', question: 'vehicle, as the workshop calls it', required: true, read: plainText(120) },
  {
    name: 'layout',
    question: `layout (${layouts.join(', ')})`,
    required: true,
    read: oneOf(layouts, 'a layout'),
  },
  {
    name: 'system',
    question: `system (${vehicleWords.system.join(', ')}; Enter for 12 V)`,
    required: false,
    read: (typed) =>
      typedWord(
        /^\d+$/u.test(typed.trim()) ? `${typed.trim()} V` : typed,
        vehicleWords.system,
        'a supply system',
      ),
  },
  {
    name: 'battery',
    question: `battery (${vehicleWords.battery.join(', ')}; ${unknown})`,
    required: false,
    read: oneOf(vehicleWords.battery, 'a kind of battery'),
  },
  {
    name: 'charging',
    question: `charging (${vehicleWords.charging.join(', ')}; ${unknown})`,
    required: false,
    read: oneOf(vehicleWords.charging, 'a kind of charging'),
  },
  {
    name: 'complaint',
    question: 'complaint, in the words of the driver (Enter if there is none)',
    required: false,
    read: plainText(4000),
  },
  { name: 'packs', question: 'rule packs', required: false, read: packs },
  { name: 'job', question: null, required: false, read: plainText(120) },
  { name: 'title', question: null, required: false, read: plainText(200) },
  { name: 'zone', question: null, required: false, read: zone },
  {
    name: 'sensor-signal',
    question: null,
    required: false,
    read: oneOf(vehicleWords['sensor-signal'], 'a kind of sensor signal'),
  },
  { name: 'distance', question: null, required: false, read: distance },
];
