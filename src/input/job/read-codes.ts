import { codeText, statusOf } from '../../core/codes.ts';
import {
  type CodeMeaning,
  type CodeStatus,
  codeMeanings,
  codePlaces,
  codeStatuses,
  codeStores,
  type TroubleCode,
} from '../../core/job.ts';
import { quoted } from '../quoted.ts';
import type { Sink } from '../sink.ts';
import { didYouMean } from '../suggest.ts';
import { get, itemsOf, type Node, textOf } from '../yaml/tree.ts';

const written = /^([PCBU][0-3][0-9A-F]{3})(?:-([0-9A-F]{2}))?$/iu;
const bytes = /^0x([0-9A-F]{4})([0-9A-F]{2})?$/iu;

/** Whether a text is spelt as a trouble code. */
export const isCodeText = (text: string): boolean => written.test(text) || bytes.test(text);

/** Whether a text is a status byte: `0x28`, `40`. */
export const isStatusByte = (text: string): boolean =>
  /^(?:0x[0-9a-f]{1,2}|\d{1,3})$/iu.test(text) && Number(text) <= 255;

/** `C1A21`, `C1A40-54`, or two or three bytes such as `0x5A21`; null with the flaw reported. */
const readCodeText = (node: Node, sink: Sink): { code: string; failureType: string | null } | null => {
  const text = textOf(node) ?? '';
  const asText = written.exec(text);
  if (asText) {
    const [, code = '', failureType] = asText;
    const upper = failureType?.toUpperCase() ?? null;
    return { code: code.toUpperCase() + (upper ? `-${upper}` : ''), failureType: upper };
  }
  const asBytes = bytes.exec(text);
  if (asBytes) {
    const upper = asBytes[2]?.toUpperCase() ?? null;
    return {
      code: codeText(Number.parseInt(asBytes[1] ?? '0', 16)) + (upper ? `-${upper}` : ''),
      failureType: upper,
    };
  }
  const hint = 'write P, C, B or U, a digit 0 to 3 and three hex digits, such as C1A21 or C1A40-54';
  sink.add('bad-code', node, `${quoted(text)} is not a trouble code`, hint);
  return null;
};

const readStatus = (node: Node | undefined, sink: Sink): { status: CodeStatus; mask: number | null } => {
  const text = textOf(node);
  if (node === undefined || text === undefined) return { status: 'stored', mask: null };
  if ((codeStatuses as readonly string[]).includes(text)) return { status: text as CodeStatus, mask: null };
  if (isStatusByte(text)) return { status: statusOf(Number(text)), mask: Number(text) };
  const hint = didYouMean(
    text,
    codeStatuses,
    `it can be ${codeStatuses.join(', ')}, or a status byte such as 0x28`,
  );
  sink.add('wrong-value', node, `a code's status cannot be ${quoted(text)}`, hint);
  return { status: 'stored', mask: null };
};

/** One of a few words; what is none of them the schema tells. */
const wordAt = <T extends string>(item: Node, key: string, known: readonly T[]): T | null => {
  const text = textOf(get(item, key));
  return known.find((word) => word === text) ?? null;
};

/** A code list; null where none was read, and empty where it was and held nothing. */
export const readCodes = (node: Node | undefined, sink: Sink): TroubleCode[] | null => {
  if (node?.kind !== 'list') return null;
  const seen = new Set<string>();
  return itemsOf(node).flatMap((item) => {
    const codeNode = get(item, 'code');
    const read = codeNode && readCodeText(codeNode, sink);
    if (!read || !codeNode) return [];
    if (seen.has(read.code)) {
      sink.add(
        'duplicate-id',
        codeNode,
        `${read.code} stands twice in this list`,
        'keep one, with the heavier status',
      );
    }
    seen.add(read.code);
    const means = textOf(get(item, 'means'));
    const known = (codeMeanings as readonly string[]).includes(means ?? '');
    return [
      {
        ...read,
        ...readStatus(get(item, 'status'), sink),
        means: known ? (means as CodeMeaning) : null,
        at: wordAt(item, 'at', codePlaces),
        storedIn: wordAt(item, 'in', codeStores),
        setBy: wordAt(item, 'set-by', ['test']),
      },
    ];
  });
};
