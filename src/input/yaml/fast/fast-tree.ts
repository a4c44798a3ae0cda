import type { Node } from '../tree.ts';
import { readBlock } from './block.ts';
import { toContent } from './line-end.ts';
import { startScan } from './scan.ts';

/** What the other parser has more to say about: tabs, lone carriage returns, and characters that cannot be seen. */
const unusual =
  /[\u0000-\u0009\u000b\u000c\u000e-\u001f\u007f-\u009f\u061c\u200b\u200e\u200f\u2028-\u202e\u2060\u2066-\u2069\ud800-\udfff\ufeff]|\r(?!\n)/u;

/**
 * The tree of an ordinary text, the same that the reference parser gives, at a small part of its time; null for every
 * text that is broken or in any way unusual, which says nothing more than that the other parser must be asked.
 */
export const fastTree = (text: string): Node | null => {
  if (unusual.test(text)) return null;
  const scan = startScan(text);
  toContent(scan, 0);
  const root = scan.column === 0 ? readBlock(scan, 0) : null;
  return scan.at === scan.text.length ? root : null;
};
