import { isAlias, isMap, isScalar, isSeq, type ParsedNode, type YAMLMap } from 'yaml';
import type { ProblemCode } from '../../core/flaw.ts';
import { rejoinItems, rejoinKey } from '../job/decimal-comma.ts';
import { numberFlaw } from '../job/plain-number.ts';
import type { LocatedFlaw } from '../problem.ts';
import { quoted } from '../quoted.ts';
import { codePointName, findControl } from './control.ts';
import type { Lines } from './lines.ts';
import type { Entry, Node } from './tree.ts';

/** Where a value begins and ends. */
type Span = readonly [start: number, end: number];

interface Walk {
  readonly text: string;
  readonly flaws: LocatedFlaw[];
  readonly lineOf: (at: number) => number;
}

/** What the place of a value says about the numbers that may stand there. */
interface Place {
  /** Below a key of the user's own nothing is read, so a number may look as it likes. */
  readonly own: boolean;
  readonly hex: boolean;
  /** Amounts and the like, which no name can be. */
  readonly counted: boolean;
}

const flaw = ({ flaws }: Walk, code: ProblemCode, at: number, message: string, hint: string): void => {
  flaws.push({ code, at, message, hint });
};

const checkText = (value: string, at: number, walk: Walk): void => {
  const character = findControl(value);
  if (character === null) return;
  // Typed as an escape it is not in the text; then the whole value is shown.
  const found = walk.text.indexOf(character, at);
  const place = found >= 0 && found <= at + value.length * 2 + 2 ? found : at;
  const message = `this text holds the invisible character ${codePointName(character)}`;
  flaw(walk, 'control-character', place, message, 'remove it');
};

const decorationHint = 'write the value out in full; put a text that begins with & or * in quotes';

/** Anchors, aliases and tags: what a job never needs and what has been used to harm readers. */
const checkDecoration = (node: ParsedNode, at: number, walk: Walk): void => {
  if (isAlias(node) || node.anchor !== undefined) {
    const start = isAlias(node) ? at : walk.text.lastIndexOf('&', at);
    const message = 'anchors and aliases (& and *) are not allowed';
    flaw(walk, 'anchor-or-alias', start < 0 ? at : start, message, decorationHint);
  }
  if (node.tag !== undefined) {
    const start = walk.text.lastIndexOf('!', at);
    const bang = walk.text[start - 1] === '!' ? start - 1 : start;
    const hint = 'write the plain value; put a text that begins with ! in quotes';
    flaw(walk, 'tag', bang < 0 ? at : bang, 'tags (!) are not allowed', hint);
  }
};

const scalar = (node: ParsedNode, [start, end]: Span, { own, hex, counted }: Place, walk: Walk): Node => {
  // What an alias stands for is not looked up; its own text keeps the place from looking empty.
  if (isAlias(node)) return { kind: 'scalar', value: node.source, text: node.source, start, end };
  const value: unknown = isScalar(node) ? node.value : null;
  const source = (isScalar(node) ? node.source : undefined) ?? String(value);
  if (typeof value === 'string') {
    checkText(value, start, walk);
    return { kind: 'scalar', value, text: value, start, end };
  }
  if (typeof value === 'number' && !own) {
    const wrong = numberFlaw(value, source, hex, counted);
    if (wrong) flaw(walk, wrong.code, start, wrong.message, wrong.hint);
  }
  const known = value === null || typeof value === 'number' || typeof value === 'boolean';
  return { kind: 'scalar', value: known ? value : String(value), text: source, start, end };
};

/** The text of a key as typed, or null with the flaw reported. */
const keyText = (key: ParsedNode | null, start: number, walk: Walk): string | null => {
  if (!isScalar(key)) {
    const code = isAlias(key) ? 'anchor-or-alias' : 'wrong-type';
    const message = isAlias(key)
      ? 'anchors and aliases (& and *) are not allowed'
      : 'a key must be a plain word';
    flaw(walk, code, start, message, 'write key: value');
    return null;
  }
  checkDecoration(key as ParsedNode, start, walk);
  const text = typeof key.value === 'string' ? key.value : (key.source ?? '');
  if (text === '') {
    flaw(walk, 'wrong-type', start, 'there is no key before this colon', 'write key: value');
    return null;
  }
  checkText(text, start, walk);
  return text;
};

const placeBelow = (key: string, { own }: Place): Place => ({
  own: own || key.startsWith('x-'),
  hex: key === 'code' || key === 'status',
  counted: ['amount', 'minutes', 'mm', 'prior', 'worksheet'].includes(key),
});

const map = (node: YAMLMap.Parsed, [start, end]: Span, place: Place, walk: Walk): Node => {
  const entries = new Map<string, Entry>();
  let last: Entry | undefined;
  for (const pair of node.items) {
    const keyStart = pair.key?.range?.[0] ?? start;
    const key = keyText(pair.key, keyStart, walk);
    if (key === null) continue;
    const whole: Node | null =
      node.flow && last && !pair.value ? rejoinKey(last.node, key, keyStart, walk.text) : null;
    if (whole && last) {
      last = { ...last, node: whole };
      entries.set(last.key, last);
      continue;
    }
    const first = entries.get(key);
    if (first) {
      const hint = `it is already set in line ${walk.lineOf(first.keyStart)}; keep one of them`;
      flaw(walk, 'duplicate-key', keyStart, `${quoted(key)} is set a second time`, hint);
      continue;
    }
    last = {
      key,
      keyStart,
      node: child(pair.value, keyStart, pair.key?.range?.[1] ?? keyStart, placeBelow(key, place), walk),
    };
    entries.set(key, last);
  }
  return { kind: 'map', entries, start, end, flow: node.flow === true };
};

const child = (node: ParsedNode | null, start: number, end: number, place: Place, walk: Walk): Node =>
  node ? toNode(node, place, walk) : { kind: 'scalar', value: null, text: '', start, end };

const toNode = (node: ParsedNode, place: Place, walk: Walk): Node => {
  const [start, end] = node.range;
  checkDecoration(node, start, walk);
  if (isMap(node)) return map(node, [start, end], place, walk);
  if (isSeq(node)) {
    const items = node.items.map((item) => child(item as ParsedNode | null, start, start, place, walk));
    const flow = node.flow === true;
    return { kind: 'list', items: flow ? rejoinItems(items, walk.text) : items, start, end, flow };
  }
  return scalar(node, [start, end], place, walk);
};

/**
 * Our own tree of a parsed document, and every flaw that plain YAML lets pass: duplicate keys, anchors, aliases,
 * tags, control characters, and numbers that would not survive being read as numbers.
 */
export const toTree = (
  contents: ParsedNode,
  text: string,
  lines: Lines,
): { root: Node; flaws: readonly LocatedFlaw[] } => {
  const walk: Walk = { text, flaws: [], lineOf: lines.lineOf };
  return { root: toNode(contents, { own: false, hex: false, counted: false }, walk), flaws: walk.flaws };
};
