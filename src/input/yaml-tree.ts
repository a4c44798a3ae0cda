import { isAlias, isMap, isScalar, isSeq, type ParsedNode, type YAMLMap } from 'yaml';
import type { ProblemCode } from '../core/flaw.ts';
import type { LocatedFlaw } from './problem.ts';
import type { Entry, Node } from './tree.ts';

/** Controls, and the marks that turn the direction of text: neither has any business in a name or a note. */
const control = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]/u;

/** Numbers that mean what they show; hex is for status bytes and two-byte codes. */
const plainNumber = /^[-+]?(?:0|[1-9]\d*)(?:\.\d+)?$|^0x[0-9a-fA-F]+$/u;

interface Walk {
  readonly text: string;
  readonly flaws: LocatedFlaw[];
}

const flaw = ({ flaws }: Walk, code: ProblemCode, at: number, message: string, hint: string): void => {
  flaws.push({ code, at, message, hint });
};

const checkText = (value: string, at: number, walk: Walk): void => {
  if (!control.test(value)) return;
  const hint = 'take it out; it cannot be seen but it is there';
  flaw(walk, 'control-character', at, 'a control character stands in this text', hint);
};

const checkNumber = (value: number, source: string, at: number, walk: Walk): void => {
  if (/^[-+]?0\d/u.test(source)) {
    const without = source.replace(/^([-+]?)0+(?=\d)/u, '$1');
    const hint = `write ${without}, or put it in quotes if it is a name`;
    flaw(walk, 'leading-zero', at, `"${source}" starts with a zero that means nothing`, hint);
  } else if (!Number.isFinite(value) || !plainNumber.test(source)) {
    const hint = 'write it out in digits, or put it in quotes if it is a name';
    flaw(walk, 'number-not-plain', at, `"${source}" is not a plain number`, hint);
  }
};

/** Anchors, aliases and tags: what a job never needs and what has been used to harm readers. */
const checkDecoration = (node: ParsedNode, at: number, walk: Walk): void => {
  if (isAlias(node) || ('anchor' in node && node.anchor !== undefined)) {
    const message = 'anchors and aliases (& and *) are not read';
    flaw(walk, 'anchor-or-alias', at, message, 'write the value out where it is wanted');
  }
  if (node.tag !== undefined) {
    flaw(walk, 'tag', at, `the tag ${node.tag} is not read`, 'write the plain value without it');
  }
};

const scalar = (node: ParsedNode, start: number, walk: Walk): Node => {
  const value: unknown = isScalar(node) ? node.value : null;
  const source = (isScalar(node) ? node.source : undefined) ?? String(value);
  if (typeof value === 'string') {
    checkText(value, start, walk);
    return { kind: 'scalar', value, text: value, start };
  }
  if (typeof value === 'number') checkNumber(value, source, start, walk);
  const known = value === null || typeof value === 'number' || typeof value === 'boolean';
  return { kind: 'scalar', value: known ? value : String(value), text: source, start };
};

/** The text of a key as typed, or null with the flaw reported. */
const keyText = (key: ParsedNode | null, start: number, walk: Walk): string | null => {
  if (!isScalar(key)) {
    const code = isAlias(key) ? 'anchor-or-alias' : 'wrong-type';
    flaw(walk, code, start, 'a key must be a plain word', 'write key: value');
    return null;
  }
  checkDecoration(key as ParsedNode, start, walk);
  const text = typeof key.value === 'string' ? key.value : (key.source ?? '');
  checkText(text, start, walk);
  return text;
};

const map = (node: YAMLMap.Parsed, start: number, walk: Walk): Node => {
  const entries = new Map<string, Entry>();
  for (const pair of node.items) {
    const keyStart = pair.key?.range?.[0] ?? start;
    const key = keyText(pair.key, keyStart, walk);
    if (key === null) continue;
    const first = entries.get(key);
    if (first) {
      const line = walk.text.slice(0, first.keyStart).split('\n').length;
      const hint = `it already stands in line ${line}; keep one of them`;
      flaw(walk, 'duplicate-key', keyStart, `"${key}" stands here a second time`, hint);
      continue;
    }
    entries.set(key, { key, keyStart, node: child(pair.value, keyStart, walk) });
  }
  return { kind: 'map', entries, start };
};

const child = (node: ParsedNode | null, start: number, walk: Walk): Node =>
  node ? toNode(node, walk) : { kind: 'scalar', value: null, text: '', start };

const toNode = (node: ParsedNode, walk: Walk): Node => {
  const start = node.range[0];
  checkDecoration(node, start, walk);
  if (isMap(node)) return map(node, start, walk);
  if (isSeq(node)) {
    const items = node.items.map((item) => child(item as ParsedNode | null, start, walk));
    return { kind: 'list', items, start };
  }
  return scalar(node, start, walk);
};

/**
 * Our own tree of a parsed document, and every flaw that plain YAML lets pass: duplicate keys, anchors, aliases,
 * tags, control characters, and numbers that would not survive being read as numbers.
 */
export const toTree = (contents: ParsedNode, text: string): { root: Node; flaws: readonly LocatedFlaw[] } => {
  const walk: Walk = { text, flaws: [] };
  return { root: toNode(contents, walk), flaws: walk.flaws };
};
