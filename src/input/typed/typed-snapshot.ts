import { type ConditionName, conditionWords, lampStates } from '../../core/job.ts';
import type { Channel } from '../../core/pack.ts';
import { doubtOf } from '../../core/readings/doubt.ts';
import type { Instrument } from '../../core/readings/instruments.ts';
import { block, braces, lines, type Pair, text, type Value } from '../edit/value.ts';
import type { Assignment } from './assignment.ts';
import { bareAssignment } from './bare-word.ts';
import { doubted, insistedOn, right, type Typed, type TypedFault, wrong } from './typed.ts';
import { codeName, isEmptyList, typedCode } from './typed-code.ts';
import { type ConditionQuantity, conditionUnits, type Name, typedName } from './typed-name.ts';
import { typedQuantity } from './typed-quantity.ts';
import { typedReading, typedReason } from './typed-reading.ts';
import { typedWord } from './typed-word.ts';

/** What was typed for one name. */
export interface Part {
  readonly name: Name;
  readonly value: Value;
  /** What was understood, for people. */
  readonly echo: string;
}

const isQuantity = (name: string): name is ConditionQuantity => name in conditionUnits;

/** A condition as it is written into a file. */
const typedCondition = (name: ConditionName | ConditionQuantity, typed: string): Typed<string> => {
  if (!isQuantity(name)) {
    return typedWord(typed, conditionWords[name] as readonly string[], `a word for ${name}`);
  }
  const unit = conditionUnits[name];
  const own = typed.trim();
  if (!/\d/u.test(own)) return wrong(typed, 'there is no number in it', `write one, such as 8 ${unit}`);
  if (name === 'asleep' && /^[\d.,]+$/u.test(own)) {
    return wrong(typed, 'this may be minutes or hours', `write ${own}min or ${own}h`);
  }
  const { text: given, insists } = insistedOn(typed);
  const quantity = typedQuantity(given, unit);
  if (!quantity.ok) return quantity;
  const doubt = insists ? null : doubtOf(quantity.value.number, quantity.value.unit, name, unit);
  return doubt ? doubted(given, doubt) : right(quantity.value.text);
};

/** A value as typed for a name that is known. */
export const typedPart = (
  name: Name,
  { typed, isReason }: Assignment,
  instruments: readonly Instrument[],
): Typed<Part> => {
  const made = (value: Value, echo: string): Typed<Part> => right({ name, value, echo });
  switch (name.kind) {
    case 'reading': {
      const read = isReason ? typedReason(typed) : typedReading(typed, name.channel, instruments);
      return read.ok ? made(read.value.value, read.value.echo) : read;
    }
    case 'condition': {
      const read = typedCondition(name.name, typed);
      return read.ok ? made(text(read.value), read.value) : read;
    }
    case 'lamp': {
      const word = typedWord(typed, lampStates, 'a state of the lamp');
      return word.ok ? made(text(word.value), word.value) : word;
    }
    case 'codes': {
      if (isEmptyList(typed)) return made(lines([]), 'none');
      const code = typedCode(typed);
      return code.ok ? made(code.value.value, code.value.echo) : code;
    }
  }
};

/** A name as it stands in a file and as it is best typed: `position.LF`, `floor`, `lamp`, `codes`. */
export const keyOfName = (name: Name): string => {
  if (name.kind === 'reading') return name.key;
  return name.kind === 'condition' ? name.name : name.kind;
};

/** Every assignment understood, or every fault of them. */
export const typedParts = (
  assignments: readonly Assignment[],
  channels: ReadonlyMap<string, Channel>,
  instruments: readonly Instrument[],
): { readonly parts: readonly Part[]; readonly faults: readonly TypedFault[] } => {
  const parts: Part[] = [];
  const faults: TypedFault[] = [];
  const seen = new Set<string>();
  for (const assignment of assignments) {
    const whole = `${assignment.name}=${assignment.typed}`;
    const name = typedName(assignment.name, channels);
    const part = name.ok ? typedPart(name.value, assignment, instruments) : name;
    if (!part.ok) {
      faults.push({ ...part.fault, typed: whole });
      continue;
    }
    const key = keyOfName(part.value.name);
    const again = wrongAgain(whole, key, seen, parts, part.value) ?? twoWays(whole, part.value, parts);
    if (again) faults.push(again);
    else parts.push(part.value);
    seen.add(key);
  }
  return { parts, faults };
};

/** One reading for the vehicle beside some at corners: a file has one or the other. */
const twoWays = (typed: string, { name }: Part, parts: readonly Part[]): TypedFault | null => {
  if (name.kind !== 'reading') return null;
  const clash = parts.some(
    ({ name: other }) =>
      other.kind === 'reading' &&
      other.channel.id === name.channel.id &&
      (other.corner === null) !== (name.corner === null),
  );
  const message = `${name.channel.id} is given once for the vehicle and at a corner, too`;
  return clash ? { typed, message, hint: 'give it at corners, or once' } : null;
};

const isNone = ({ value }: Part): boolean => value.kind === 'list';

/** The code of a part as it is called once it is read, however it was spelt. */
export const codeOf = ({ echo }: Part): string => codeName(echo.split(' ')[0] ?? '');

/** A name that was given before; only codes may come more than once, each of them once. */
const wrongAgain = (
  typed: string,
  key: string,
  seen: ReadonlySet<string>,
  parts: readonly Part[],
  part: Part,
): TypedFault | null => {
  if (!seen.has(key)) return null;
  const fault = (message: string, hint: string): TypedFault => ({ typed, message, hint });
  if (key !== 'codes') return fault(`${key} is given twice`, 'for repeats write 2.48/2.50/2.49');
  const codes = parts.filter(({ name }) => name.kind === 'codes');
  if (isNone(part) || codes.some(isNone)) {
    return fault('a code is given, and none, too', 'leave one of the two out');
  }
  return codes.some((one) => codeOf(one) === codeOf(part))
    ? fault(`${codeOf(part)} is given twice`, 'keep one, with the heavier status')
    : null;
};

/** The corners of a channel in one pair of braces, where they are first named. */
const readingPairs = (parts: readonly Part[]): Pair[] => {
  const whole = new Map<string, Value>();
  const corners = new Map<string, Pair[]>();
  for (const { name, value } of parts) {
    if (name.kind !== 'reading') continue;
    const { channel, corner } = name;
    if (corner === null) {
      whole.set(channel.id, value);
      continue;
    }
    const pairs = corners.get(channel.id) ?? [];
    pairs.push([corner, value]);
    corners.set(channel.id, pairs);
    whole.set(channel.id, braces(pairs));
  }
  return [...whole];
};

/** What was typed of one snapshot, as its keys in the order of a file. */
export const snapshotValue = (
  head: { readonly id: string; readonly at: string; readonly state: string },
  parts: readonly Part[],
  conditionsBefore: readonly Pair[] = [],
  note: string | null = null,
): Value => {
  const own = parts.flatMap(({ name, value }): Pair[] =>
    name.kind === 'condition' ? [[name.name, value]] : [],
  );
  const conditions = [...conditionsBefore.filter(([key]) => !own.some(([one]) => one === key)), ...own];
  const readings = readingPairs(parts);
  const lamp = parts.find(({ name }) => name.kind === 'lamp');
  const codes = parts.filter(({ name }) => name.kind === 'codes');
  return block([
    ['id', text(head.id)],
    ['at', text(head.at)],
    ['state', text(head.state)],
    ...(conditions.length > 0 ? ([['conditions', braces(conditions)]] as const) : []),
    ...(readings.length > 0 ? ([['readings', block(readings)]] as const) : []),
    ...(lamp ? ([['lamp', lamp.value]] as const) : []),
    ...(codes.length > 0 ? ([['codes', codesValue(codes)]] as const) : []),
    ...(note === null ? [] : ([['note', text(note)]] as const)),
  ]);
};

const codesValue = (codes: readonly Part[]): Value =>
  codes.some(isNone) ? { kind: 'list', items: [], style: 'flow' } : lines(codes.map(({ value }) => value));

/** `name=value` as an assignment, or a word that says by itself what it is of. */
export const typedAssignment = (word: string): Typed<Assignment> => {
  const at = word.indexOf('=');
  if (at > 0) return right({ name: word.slice(0, at).trim(), typed: word.slice(at + 1) });
  if (at === 0) return wrong(word, 'this has no name before its equals sign', 'write it like supply=12.2');
  const bare = bareAssignment(word);
  if (bare !== null) return bare;
  const name = /^\p{L}[\p{L}\d.-]*/u.exec(word)?.[0] ?? 'supply';
  return wrong(word, 'this has no equals sign', `write it like ${name}=12.2, without blanks around the sign`);
};
