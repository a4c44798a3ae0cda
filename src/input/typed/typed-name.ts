import { type Corner, corners } from '../../core/corner.ts';
import { type ConditionName, conditionWords } from '../../core/job.ts';
import { keyOf } from '../../core/key.ts';
import type { Channel } from '../../core/pack.ts';
import type { UnitName } from '../../core/readings/units.ts';
import { cornerHint, cornerMeant } from '../job/corner-hint.ts';
import { quoted } from '../quoted.ts';
import { didYouMean } from '../suggest.ts';
import { right, type Typed, wrong } from './typed.ts';

/** Conditions that are quantities, with the unit of a number without one. */
export const conditionUnits = {
  air: '°C',
  rested: 'h',
  asleep: 'h',
  barometer: 'kPa',
  altitude: 'm',
} as const satisfies Record<string, UnitName>;
export type ConditionQuantity = keyof typeof conditionUnits;

/** What a word before the equals sign names. */
export type Name =
  | {
      readonly kind: 'reading';
      readonly key: string;
      readonly channel: Channel;
      readonly corner: Corner | null;
    }
  | { readonly kind: 'condition'; readonly name: ConditionName | ConditionQuantity }
  | { readonly kind: 'lamp' }
  | { readonly kind: 'codes' };

/** The channel that a corner alone means. */
export const cornerChannel = 'position';

const wordConditions = Object.keys(conditionWords) as ConditionName[];
const quantityConditions = Object.keys(conditionUnits) as ConditionQuantity[];

/** Whether a word names a condition. */
export const isConditionName = (word: string): word is ConditionName | ConditionQuantity =>
  Object.hasOwn(conditionWords, word) || Object.hasOwn(conditionUnits, word);

/** Every name that may be typed, as it is best typed. */
export const namesOf = (channels: ReadonlyMap<string, Channel>): string[] => [
  ...[...channels.values()].flatMap(({ id, per }) => {
    if (per === 'vehicle') return [id];
    const each = corners.map((corner) => (id === cornerChannel ? corner : keyOf(id, corner)));
    return per === 'either' ? [id, ...each] : each;
  }),
  ...wordConditions,
  ...quantityConditions,
  'lamp',
  'code',
];

const reading = (channel: Channel, corner: Corner | null, typed: string): Typed<Name> => {
  if (channel.per === 'corner' && corner === null) {
    const each = corners.map((one) => (channel.id === cornerChannel ? one : keyOf(channel.id, one)));
    return wrong(
      typed,
      `${quoted(channel.id)} is read at each corner, and none is named`,
      `write ${each.join(', ')}`,
    );
  }
  if (channel.per === 'vehicle' && corner !== null) {
    return wrong(
      typed,
      `${quoted(channel.id)} is read once for the vehicle, not at corners`,
      `write ${channel.id}=…`,
    );
  }
  return right({ kind: 'reading', key: keyOf(channel.id, corner), channel, corner });
};

/** Fewer letters than this are the beginning of too much. */
const leastBegun = 3;

/**
 * The name that a beginning stands for: the only one that begins so, or the one that all others go on from (`bat` is
 * `battery`, not `battery-temperature`). Null where it may be several.
 */
const begunBy = <T extends string>(typed: string, names: readonly T[]): T | null => {
  if (typed.length < leastBegun) return null;
  const own = names.filter((name) => name.toLowerCase().startsWith(typed));
  const [shortest] = [...own].sort((a, b) => a.length - b.length);
  return shortest !== undefined && own.every((name) => name.startsWith(shortest)) ? shortest : null;
};

/**
 * What a name means, in any case: a channel (`supply`, `height.LF`), a corner alone for its position, a condition,
 * `lamp`, `code`. Corners may be spelt front first (`FL`): left and right are as seated facing forward. The beginning of
 * a name will do where it is of one only.
 *
 * @param channels the job's channels by their base names
 */
export const typedName = (typed: string, channels: ReadonlyMap<string, Channel>): Typed<Name> => {
  const word = typed.trim();
  const lower = word.toLowerCase();
  if (lower === 'lamp') return right({ kind: 'lamp' });
  if (lower === 'code' || lower === 'codes') return right({ kind: 'codes' });
  const condition = [...wordConditions, ...quantityConditions].find((one) => one === lower);
  if (condition) return right({ kind: 'condition', name: condition });
  const ids = [...channels.keys()];
  const find = (base: string): Channel | undefined =>
    [...channels.values()].find(({ id }) => id.toLowerCase() === base);
  const whole = find(lower);
  if (whole) return reading(whole, null, word);
  const alone = cornerMeant(word);
  const position = find(cornerChannel);
  if (alone && position) return reading(position, alone, word);
  const dot = lower.lastIndexOf('.');
  const base = dot > 0 ? lower.slice(0, dot) : '';
  const channel = dot > 0 ? (find(base) ?? channels.get(begunBy(base, ids) ?? '')) : undefined;
  if (!channel) {
    const begun = dot > 0 ? null : begunBy(lower, [...ids, ...wordConditions, ...quantityConditions]);
    if (begun !== null) return typedName(begun, channels);
    // Any two letters are near every corner, so none is offered before the others.
    const short = /^\p{L}{2}$/u.test(word);
    return wrong(
      typed,
      `nothing is called ${quoted(word)}`,
      short
        ? `a corner is ${corners.join(', ')}`
        : didYouMean(
            word,
            namesOf(channels),
            "name a channel of the job's packs, a corner, a condition, lamp or code",
          ),
    );
  }
  const tail = word.slice(dot + 1);
  const corner = cornerMeant(tail);
  return corner
    ? reading(channel, corner, word)
    : wrong(typed, `${quoted(tail)} is not a corner`, cornerHint(tail));
};
