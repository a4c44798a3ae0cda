import type { ListNode, Node, ScalarNode } from '../yaml/tree.ts';

/**
 * In brackets a decimal comma falls apart: `{LF: 2,48 V}` is read as LF: 2 and a key "48 V", `[2,48 V]` as two
 * values. Where no blank follows the comma, the parts are joined again, so that the flaw can be reported as a decimal
 * comma.
 */
const follows = (first: Node | undefined, start: number, text: string): first is ScalarNode =>
  first?.kind === 'scalar' &&
  /^[-+]?\d+$/u.test(first.text) &&
  start === first.start + first.text.length + 1 &&
  text[start - 1] === ',' &&
  /\d/u.test(text[start] ?? '');

const joined = (first: ScalarNode, rest: string): ScalarNode => {
  const text = `${first.text},${rest}`;
  return { kind: 'scalar', value: text, text, start: first.start, end: first.start + text.length };
};

/** A value of a map in brackets with the key that was torn off it, or null where that key is a key. */
export const rejoinKey = (
  before: Node | undefined,
  key: string,
  keyStart: number,
  text: string,
): Node | null => (follows(before, keyStart, text) && /^\d/u.test(key) ? joined(before, key) : null);

/** The items of a list with torn quantities put together; numbers alone may well be two. */
export const rejoinItems = (items: readonly Node[], text: string): Node[] => {
  const whole: Node[] = [];
  for (const item of items) {
    const before = whole.at(-1);
    const hasUnit = item.kind === 'scalar' && /^\d+\s*[^\d\s.,]/u.test(item.text);
    if (hasUnit && follows(before, item.start, text)) whole[whole.length - 1] = joined(before, item.text);
    else whole.push(item);
  }
  return whole;
};

/** Whether two whole numbers of a list stand together like one with a decimal comma: `[2,48]`. */
export const tornNumber = ({
  items,
}: ListNode): { readonly first: ScalarNode; readonly second: ScalarNode } | null => {
  for (const [index, second] of items.entries()) {
    const first = items[index - 1];
    if (first?.kind !== 'scalar' || second.kind !== 'scalar') continue;
    const touching = second.start === first.start + first.text.length + 1;
    if (touching && /^[-+]?\d+$/u.test(first.text) && /^\d+$/u.test(second.text)) return { first, second };
  }
  return null;
};
