import type { Schema } from '../../core/checks/kind.ts';
import { corners } from '../../core/corner.ts';
import type { Path, ProblemCode } from '../../core/flaw.ts';
import { cornerHint, meansCorner } from '../job/corner-hint.ts';
import type { LocatedFlaw } from '../problem.ts';
import { quoted, shortened } from '../quoted.ts';
import { didYouMean, suggest } from '../suggest.ts';
import { get, type Node, offsetAt, textOf } from '../yaml/tree.ts';

/** One failure of a schema, with all that is needed to word it. */
export interface Failure {
  readonly keyword: string;
  readonly params: Readonly<Record<string, unknown>>;
  /** The schema that the keyword stands in. */
  readonly schema: Schema;
  readonly path: Path;
  readonly root: Node;
  /** The last key on the way; null at the top of the file. */
  readonly name: string | null;
  /** Whether the value may be left out. */
  readonly optional: boolean;
}

const nodeAt = (root: Node, path: Path): Node | undefined => {
  let here: Node | undefined = root;
  for (const part of path) here = here?.kind === 'list' ? here.items[Number(part)] : get(here, String(part));
  return here;
};

const subject = ({ name, path }: Failure): string => {
  if (name === null) return 'this file';
  return path.at(-1) === name ? quoted(name) : `an entry of ${quoted(name)}`;
};

/** Where keys are missing, unless that is the top of the file. */
const place = (failure: Failure): string => {
  const { name, path } = failure;
  if (name === null) return '';
  return path.at(-1) === name ? ` under ${quoted(name)}` : ` in an entry of ${quoted(name)}`;
};

const orNothing = ({ optional }: Failure): string => (optional ? ', or remove the key' : '');

/** What a schema wants, as it follows "write". */
const expectation = (schema: Schema, types: unknown): string => {
  const own = schema['x-expected'];
  if (typeof own === 'string') return own;
  if (types === 'object' && Array.isArray(schema.required) && schema.required.length > 0) {
    return `{${schema.required.map((key) => `${key}: …`).join(', ')}}`;
  }
  const words = (Array.isArray(types) ? types : [types]).map((type) => wanted[String(type)] ?? String(type));
  return words.join(' or ');
};

const wanted: Readonly<Record<string, string>> = {
  object: 'key: value lines below it',
  array: 'a list, such as [a, b]',
  string: 'a text',
  number: 'a number',
  integer: 'a whole number',
  boolean: 'true or false',
};

const propertiesOf = (schema: Schema): Readonly<Record<string, Schema>> =>
  (schema.properties ?? {}) as Readonly<Record<string, Schema>>;

const knownKeys = ({ schema }: Failure): string[] => Object.keys(propertiesOf(schema));

/** The key that a misspelt one of a failure stands for, or null. */
export const meantKey = (failure: Failure): string | null =>
  failure.keyword === 'additionalProperties'
    ? suggest(String(failure.params.additionalProperty), knownKeys(failure))
    : null;

const unknownKey = (failure: Failure): LocatedFlaw => {
  const { params, schema, path, root } = failure;
  const key = String(params.additionalProperty);
  const at = offsetAt(root, [...path, key], true);
  const known = knownKeys(failure);
  if (meansCorner(key) && corners.every((corner) => known.includes(corner))) {
    return { code: 'unknown-corner', at, message: `${quoted(key)} is not a corner`, hint: cornerHint(key) };
  }
  const own = schema.patternProperties ? '; keys of your own begin with x-' : '';
  const here = nodeAt(root, path);
  const free = known.filter((one) => get(here, one) === undefined);
  const hint = meantKey(failure)
    ? `did you mean ${meantKey(failure)}?`
    : free.length > 0
      ? `it can be ${free.join(', ')}${own}`
      : `every key that it can have is there${own}`;
  return { code: 'unknown-key', at, message: `unknown key ${quoted(key)}${place(failure)}`, hint };
};

const exampleOf = (schema: Schema | undefined): string => {
  if (typeof schema?.const === 'number') return String(schema.const);
  const words = schema?.['x-offered'] ?? schema?.enum;
  if (Array.isArray(words)) return words.join(' | ');
  const example = /such as (.+)$/u.exec(String(schema?.['x-expected'] ?? ''))?.[1];
  return example ?? '…';
};

const missingKeys = (failure: Failure): LocatedFlaw => {
  const { params, schema, path, root } = failure;
  const missing = params.missing as readonly string[];
  const names = missing.map((key) => `"${key}"`);
  const list = names.length > 1 ? `${names.slice(0, -1).join(', ')} and ${names.at(-1)}` : names.join('');
  const lines = missing.map((key) => `${key}: ${exampleOf(propertiesOf(schema)[key])}`);
  return {
    code: 'missing-key',
    at: offsetAt(root, path),
    message: `missing required ${names.length > 1 ? 'keys' : 'key'} ${list}${place(failure)}`,
    hint: `add ${lines.join(', ')}`,
  };
};

/** A text where a number is wanted: mostly a number with something too much. */
const notANumber = (text: string): { code: ProblemCode; says: string; hint: string } | null => {
  const comma = /^([-+]?\d+),(\d+)$/u.exec(text);
  if (comma)
    return { code: 'decimal-comma', says: 'has a decimal comma', hint: `write ${comma[1]}.${comma[2]}` };
  if (/^\d{1,3}(?:[_' ]\d{3})+(?:\.\d+)?$/u.test(text) || /^\d+(?:_\d+)+$/u.test(text)) {
    return {
      code: 'number-not-plain',
      says: 'is not a plain number',
      hint: `write ${text.replace(/[_' ]/gu, '')}`,
    };
  }
  return null;
};

const kindOf = (node: Node | undefined): string => {
  if (node?.kind === 'map') return 'a map of keys';
  if (node?.kind === 'list') return 'a list';
  if (typeof node?.value === 'number') return 'a number';
  return typeof node?.value === 'boolean' ? 'true or false' : 'a text';
};

const wrongType = (failure: Failure): LocatedFlaw => {
  const { params, schema, path, root } = failure;
  const here = nodeAt(root, path);
  const at = offsetAt(root, path);
  const wants = expectation(schema, params.type);
  const types = [params.type].flat().map(String);
  if (here?.kind === 'scalar' && here.value === null) {
    const key = offsetAt(root, path, true);
    const hint = `write ${wants}${orNothing(failure)}`;
    return { code: 'wrong-type', at: key, message: `${subject(failure)} has no value`, hint };
  }
  if (here?.kind === 'scalar' && types.includes('number')) {
    const wrong = notANumber(here.text);
    if (wrong)
      return { code: wrong.code, at, message: `${quoted(here.text)} ${wrong.says}`, hint: wrong.hint };
    const plain = typeof here.value === 'string' && /^\d+(?:\.\d+)?$/u.test(here.text);
    const hint = plain ? `remove the quotes: ${here.text}` : `write ${wants}`;
    return { code: 'wrong-type', at, message: `${subject(failure)} cannot be ${quoted(here.text)}`, hint };
  }
  const fits = typeof schema.pattern !== 'string' || new RegExp(schema.pattern, 'u').test(textOf(here) ?? '');
  const quotable = here?.kind === 'scalar' && types.includes('string') && fits;
  const hint = quotable ? `put it in quotes: "${shortened(here.text)}"` : `write ${wants}`;
  return { code: 'wrong-type', at, message: `${subject(failure)} cannot be ${kindOf(here)}`, hint };
};

/** The words that a value may have, without those that are only understood. */
const offered = ({ keyword, params, schema }: Failure): string[] => {
  const words = schema['x-offered'] ?? params.allowedValues;
  return (keyword === 'enum' && Array.isArray(words) ? words : [params.allowedValue]).map(String);
};

const wrongWord = (failure: Failure): LocatedFlaw => {
  const { path, root } = failure;
  const at = offsetAt(root, path);
  const known = offered(failure);
  const here = nodeAt(root, path);
  if (here?.kind === 'scalar' && here.value === null) {
    const key = offsetAt(root, path, true);
    const hint = `write ${known.join(' or ')}${orNothing(failure)}`;
    return { code: 'wrong-type', at: key, message: `${subject(failure)} has no value`, hint };
  }
  const typed = textOf(here) ?? '';
  if (here?.kind === 'scalar' && typeof here.value === 'boolean') {
    const meant = known.filter((word) => (here.value ? ['yes', 'on'] : ['no', 'off']).includes(word));
    if (meant.length === 1) {
      const message = `${subject(failure)} is said in a word`;
      return { code: 'wrong-value', at, message, hint: `write ${meant[0]}` };
    }
  }
  const choice = known.length > 1 ? `it can be ${known.join(', ')}` : `write ${known.join('')}`;
  if (here?.kind !== 'scalar') {
    return { code: 'wrong-type', at, message: `${subject(failure)} cannot be ${kindOf(here)}`, hint: choice };
  }
  const cornersOnly = known.length === corners.length;
  if (corners.every((corner) => known.includes(corner)) && (cornersOnly || meansCorner(typed))) {
    return {
      code: 'unknown-corner',
      at,
      message: `${quoted(typed)} is not a corner`,
      hint: cornerHint(typed),
    };
  }
  const hint = known.length > 1 ? didYouMean(typed, known, choice) : choice;
  return { code: 'wrong-value', at, message: `${subject(failure)} cannot be ${quoted(typed)}`, hint };
};

const wrongForm = (failure: Failure): LocatedFlaw => {
  const { schema, path, root } = failure;
  const typed = textOf(nodeAt(root, path)) ?? '';
  const hint = `write ${String(schema['x-expected'] ?? 'it in its usual form')}`;
  const message = `${subject(failure)} cannot be ${quoted(typed)}`;
  return { code: 'wrong-value', at: offsetAt(root, path), message, hint };
};

const wrongSize =
  (says: (failure: Failure) => string, hint: (limit: string) => string) =>
  (failure: Failure): LocatedFlaw => ({
    code: 'wrong-value',
    at: offsetAt(failure.root, failure.path),
    message: says(failure),
    hint: hint(String(failure.params.limit)),
  });

const entries = (limit: string): string => (limit === '1' ? '1 entry' : `${limit} entries`);

/** One wording a keyword; what no schema of ours uses is not here. */
export const wordings: Readonly<Record<string, (failure: Failure) => LocatedFlaw>> = {
  additionalProperties: unknownKey,
  required: missingKeys,
  type: wrongType,
  enum: wrongWord,
  const: wrongWord,
  pattern: wrongForm,
  minItems: wrongSize(
    (failure) => `${subject(failure)} has too few entries`,
    (limit) => `give at least ${entries(limit)}`,
  ),
  maxItems: wrongSize(
    (failure) => `${subject(failure)} has too many entries`,
    (limit) => `give at most ${entries(limit)}`,
  ),
  minProperties: wrongSize(
    (failure) => `${subject(failure)} has too few keys`,
    (limit) => `give at least ${limit}`,
  ),
  minLength: wrongSize(
    (failure) => `${subject(failure)} is empty`,
    () => 'write a text, or remove the key',
  ),
  maxLength: wrongSize(
    (failure) => `${subject(failure)} is too long`,
    (limit) => `give at most ${limit} characters`,
  ),
  minimum: wrongSize(
    (failure) => `${subject(failure)} is too small`,
    (limit) => `give ${limit} or more`,
  ),
  maximum: wrongSize(
    (failure) => `${subject(failure)} is too large`,
    (limit) => `give ${limit} or less`,
  ),
};
