import type { LocatedFlaw, Problem } from '../problem.ts';
import { locate } from '../problem.ts';
import { quoted } from '../quoted.ts';
import { emptyHint } from '../yaml/decode.ts';
import { readYaml } from '../yaml/read-yaml.ts';
import { type Entry, entriesOf, get, itemsOf, type Node, textOf } from '../yaml/tree.ts';
import type { Assignment } from './assignment.ts';

/** Groups of a job file's snapshot, which may be left out. */
const groups: ReadonlySet<string> = new Set(['readings', 'conditions']);

const readingParts: ReadonlySet<string> = new Set(['value', 'by', 'low', 'high', 'at', 'why']);

const codeParts = ['code', 'status', 'means', 'at', 'in', 'set-by'];

/** Parts of a code that are typed with their names, since their words may mean something else alone. */
const namedParts: ReadonlySet<string> = new Set(['at', 'in', 'set-by']);

/** What a job file's snapshot says besides its readings is said on the command line. */
const elsewhere: Readonly<Record<string, string>> = {
  id: '--id as-found',
  at: '--at 10:30',
  note: '--note and a text',
  state: 'the state after the file',
};

/** What to do where there is nothing that could be read. */
const jsonHint = 'write it like {"supply": 12.20, "LF": 2.48}';

type Read = Assignment | LocatedFlaw;

const flaw = (at: number, message: string, hint: string): LocatedFlaw[] => [
  { code: 'bad-reading', at, message, hint },
];

const isCodes = (name: string): boolean => /^codes?$/iu.test(name);

/** A code in one piece, or in parts as in a file. */
const ofCode = (name: string, node: Node): Read[] => {
  const strange = entriesOf(node).find(({ key }) => !codeParts.includes(key));
  if (strange) {
    return flaw(
      strange.keyStart,
      `${quoted(strange.key)} is no part of a code`,
      `it can be ${codeParts.join(', ')}`,
    );
  }
  if (node.kind === 'list') return flaw(node.start, 'this is not one code', 'write "C1A21:stored"');
  const part = (key: string): string | undefined => {
    const typed = textOf(get(node, key));
    return typed !== undefined && namedParts.has(key) ? `${key}=${typed}` : typed;
  };
  const parts = node.kind === 'map' ? codeParts.map(part) : [textOf(node)];
  return [{ name, typed: parts.filter((part) => part !== undefined).join(':') }];
};

/** Numbers of one reading, each of them one value: words there would turn the whole into a reason. */
const numbers = (
  name: string,
  nodes: readonly Node[],
  joined: (texts: readonly string[]) => string,
): Read[] => {
  const strange = nodes.find((node) => !/^[^\p{L}]/u.test(textOf(node) ?? ''));
  return strange
    ? flaw(strange.start, 'this is not one number', 'write a number; for none write {"why": "plug seized"}')
    : [{ name, typed: joined(nodes.map((node) => textOf(node) ?? '')) }];
};

/** One reading in parts, as in a file. */
const ofParts = (name: string, node: Node): Read[] => {
  const [why, value, low, high] = ['why', 'value', 'low', 'high'].map((key) => get(node, key));
  const by = textOf(get(node, 'by'));
  const leads = get(node, 'at');
  const [from, to] = ['from', 'to'].map((key) => textOf(get(leads, key)));
  if (leads && (why || from === undefined || to === undefined || entriesOf(leads).length > 2)) {
    return flaw(
      leads.start,
      'this does not say where both leads were',
      'write {"from": …, "to": …} beside a value',
    );
  }
  const tail = `${by === undefined ? '' : `@${by}`}${leads ? ` from ${from} to ${to}` : ''}`;
  const forms = [why, value, low ?? high].filter((form) => form !== undefined);
  if (forms.length !== 1 || (low === undefined) !== (high === undefined)) {
    const message =
      forms.length > 1 ? 'this says several things at once' : 'this reading is missing or incomplete';
    return flaw(node.start, message, 'give value, or low and high, or why');
  }
  if (why) return [{ name, typed: textOf(why) ?? '', isReason: true }];
  if (value) return numbers(name, [value], ([text]) => `${text}${tail}`);
  return low && high ? numbers(name, [low, high], ([from, to]) => `${from}..${to}${tail}`) : [];
};

const ofNode = (name: string, node: Node): Read[] => {
  if (isCodes(name)) {
    const items = itemsOf(node);
    if (node.kind !== 'list') return ofCode(name, node);
    return items.length === 0 ? [{ name, typed: 'none' }] : items.flatMap((item) => ofCode(name, item));
  }
  switch (node.kind) {
    case 'scalar':
      return typeof node.value === 'boolean'
        ? flaw(node.start, `${node.text} is neither a number nor words`, 'write it as it is typed')
        : [{ name, typed: textOf(node) ?? '' }];
    case 'list':
      return node.items.length === 0
        ? [{ name, typed: '' }]
        : numbers(name, node.items, (texts) => texts.join('/'));
    case 'map': {
      const entries = entriesOf(node);
      return entries.every(({ key }) => readingParts.has(key))
        ? ofParts(name, node)
        : entries.flatMap(({ key, node: value }) => ofNode(`${name}.${key}`, value));
    }
  }
};

const ofEntry = ({ key, keyStart, node }: Entry): Read[] => {
  const place = Object.hasOwn(elsewhere, key) ? elsewhere[key] : undefined;
  if (place !== undefined) {
    const message = `${quoted(key)} is not said here`;
    return [{ code: 'unknown-key', at: keyStart, message, hint: `remove it, and write ${place}` }];
  }
  return groups.has(key) && node.kind === 'map'
    ? entriesOf(node).flatMap((inner) => ofNode(inner.key, inner.node))
    : ofNode(key, node);
};

const isFlaw = (one: Read): one is LocatedFlaw => 'code' in one;

const isAssignment = (one: Read): one is Assignment => !isFlaw(one);

/** What is said of a whole file would mislead whoever wrote a few readings. */
const forReadings = (one: LocatedFlaw): LocatedFlaw =>
  one.hint === emptyHint
    ? { ...one, message: 'names with their readings are wanted here', hint: jsonHint }
    : one;

/**
 * Readings of a script as JSON: names to values as they would be typed, or in the shape of a job file's snapshot.
 * Numbers keep their digits: 2.50 is finer than 2.5.
 *
 * @param file how to name the text in what is said of it
 */
export const jsonAssignments = (
  text: string,
  file: string,
): { readonly assignments: readonly Assignment[]; readonly problems: readonly Problem[] } => {
  const { root, flaws } = readYaml(text);
  const told = flaws.map(forReadings);
  if (root === null || told.length > 0) return { assignments: [], problems: locate(text, told, file) };
  const read = entriesOf(root).flatMap(ofEntry);
  const wrong = read.filter(isFlaw);
  return {
    assignments: wrong.length > 0 ? [] : read.filter(isAssignment),
    problems: locate(text, wrong, file),
  };
};
