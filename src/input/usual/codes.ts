import type { Value } from '../edit/value.ts';
import type { Sink } from '../sink.ts';
import { isEmptyList, typedCode } from '../typed/typed-code.ts';
import { type Node, textOf } from '../yaml/tree.ts';
import { entryOf, mapItems, mapNode, textNode } from './nodes.ts';

const asText = (value: Value): string => (value.kind === 'text' || value.kind === 'bare' ? value.text : '');

/** `C3A21:stored:signal-range` as the map that it stands for; null with the flaw told where it is no code. */
const codeForm = (node: Node, sink: Sink): Node | null => {
  const text = textOf(node);
  if (node.kind !== 'scalar' || typeof node.value !== 'string' || text === undefined) return node;
  const { start, end } = node;
  const code = typedCode(text);
  if (!code.ok) {
    sink.add('bad-code', node, code.fault.message, code.fault.hint);
    return null;
  }
  const { value } = code.value;
  const pairs = value.kind === 'map' ? value.entries : [];
  return mapNode(
    pairs.map(([key, part]) => entryOf(key, textNode(asText(part), start, end))),
    start,
    end,
  );
};

/** A code list in its usual form: a list of maps, also where one code alone, or `none`, was written. */
export const codesForm = (node: Node, sink: Sink): Node => {
  const text = textOf(node);
  if (node.kind === 'scalar' && typeof node.value === 'string' && text !== undefined) {
    const { start, end } = node;
    const code = isEmptyList(text) ? null : codeForm(node, sink);
    return { kind: 'list', items: code === null ? [] : [code], start, end, flow: true };
  }
  return mapItems(node, (item) => codeForm(item, sink));
};
