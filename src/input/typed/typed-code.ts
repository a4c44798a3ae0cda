import { codeText } from '../../core/codes.ts';
import { codeMeanings, codePlaces, codeStatuses, codeStores } from '../../core/job.ts';
import { braces, type Pair, text, type Value } from '../edit/value.ts';
import { isCodeText, isStatusByte } from '../job/read-codes.ts';
import { quoted } from '../quoted.ts';
import { didYouMean } from '../suggest.ts';
import { right, type Typed, wrong } from './typed.ts';

export interface TypedCode {
  readonly value: Value;
  readonly echo: string;
}

/** `C1A21` of a code in either spelling: two or three bytes are the same code. */
export const codeName = (code: string): string => {
  const [, bytes, type] = /^0x([\dA-F]{4})([\dA-F]{2})?$/iu.exec(code) ?? [];
  if (bytes === undefined) return code;
  return codeText(Number.parseInt(bytes, 16)) + (type === undefined ? '' : `-${type}`);
};

/** Words for a list that was read and held nothing. */
const empty: ReadonlySet<string> = new Set(['none', '-', 'no', 'empty', '[]']);

export const isEmptyList = (typed: string): boolean => empty.has(typed.trim().toLowerCase());

const known = [...codeStatuses, ...codeMeanings];

/** What else may be said of a code, by its key; a place and `test` are understood without it. */
const others: readonly {
  readonly key: string;
  readonly words: readonly string[];
  readonly alone: boolean;
}[] = [
  { key: 'at', words: codePlaces, alone: true },
  { key: 'in', words: codeStores, alone: false },
  { key: 'set-by', words: ['test'], alone: true },
];

/** `at=LR`, `LR`, `in=other`, `test` as a key and its word; null for anything else. */
const otherPart = (part: string): Pair | null => {
  const [, name, given] = /^(at|in|set-by)=(.*)$/iu.exec(part) ?? [];
  for (const { key, words, alone } of others) {
    if (name === undefined ? !alone : name.toLowerCase() !== key) continue;
    const typed = given ?? part;
    const word = words.find((one) => one.toLowerCase() === typed.toLowerCase());
    if (word !== undefined) return [key, text(word)];
  }
  return null;
};

/**
 * A trouble code as typed: the code, then in any order its status (a word or a status byte) and what it means, with
 * colons or blanks between: `C1A21:stored:signal-range`, `C1A40-54:0x28`; and the place that its text names, the module
 * that stores it, and whether a test set it: `C1A21:LR`, `C1A21:in=other`, `C1A21:test`.
 */
export const typedCode = (typed: string): Typed<TypedCode> => {
  const [first = '', ...rest] = typed.trim().split(/[:\s]+/u);
  if (first === '')
    return wrong(typed, 'nothing is typed here', 'write a code such as C1A21:stored, or none');
  const code = first.toUpperCase().replace(/^0X/u, '0x');
  if (!isCodeText(code)) {
    const hint = 'write P, C, B or U, a digit 0 to 3 and three hex digits, such as C1A21:stored, or none';
    return wrong(typed, `${quoted(first)} is not a trouble code`, hint);
  }
  let status: Value = text('stored');
  let means: string | null = null;
  const more = new Map<string, Value>();
  for (const part of rest.filter((word) => word !== '')) {
    const word = part.toLowerCase();
    const meaning = codeMeanings.find((one) => one === word);
    if (meaning) means = meaning;
    else if (codeStatuses.some((one) => one === word)) status = text(word);
    else if (isStatusByte(word)) status = { kind: 'bare', text: word };
    else if (otherPart(part)) more.set(...(otherPart(part) as [string, Value]));
    else
      return wrong(
        typed,
        `${quoted(part)} is neither a status nor a meaning`,
        didYouMean(
          word,
          known,
          `a status is ${codeStatuses.join(', ')} or a byte such as 0x28; a meaning is one of ${codeMeanings.join(', ')}; at=${codePlaces.join('|')}, in=${codeStores.join('|')} and set-by=test may follow`,
        ),
      );
  }
  const pairs: Pair[] = [
    ['code', code.startsWith('0x') ? { kind: 'bare', text: code } : text(code)],
    ['status', status],
    ...(means === null ? [] : ([['means', text(means)]] as const)),
    ...more,
  ];
  const said = (value: Value): string => (value.kind === 'text' || value.kind === 'bare' ? value.text : '');
  const words = [
    code,
    said(status),
    means,
    ...[...more].map(([key, value]) => `${key} ${said(value)}`),
  ].filter(Boolean);
  return right({ value: braces(pairs), echo: words.join(' ') });
};
