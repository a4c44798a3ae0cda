import { isMap, type Plain, type PlainMap, type Tape } from './random-job.ts';

/** Lines written so far, and what the last of them leaves open. */
interface Page {
  readonly lines: string[];
  readonly tape: Tape;
  comments: number;
  /** The column of the block text that ended last: a comment that deep would be part of it. */
  open: { readonly column: number; readonly keeps: boolean } | null;
}

const blanks = (count: number): string => ' '.repeat(count);

const comment = (page: Page): string => {
  page.comments += 1;
  return page.tape.of([`# remark ${page.comments}`, `#${page.comments}: {[ "it's`, `# - ${page.comments} -`]);
};

/** What may stand behind a value. */
const tail = (page: Page): string => {
  const kind = page.tape.pick(10);
  if (kind === 9) return ` ${comment(page)}`;
  if (kind === 8) return `\t ${comment(page)}`;
  return kind === 7 ? '  ' : '';
};

/** Blank lines and comments between two lines. */
const gap = (page: Page, column: number): void => {
  const { tape, lines } = page;
  if (!tape.chance(25)) return;
  for (let count = 1 + tape.pick(3); count > 0; count -= 1) {
    const deepest = page.open === null ? column + 3 : Math.min(column + 3, page.open.column - 1);
    if (tape.chance(50)) {
      lines.push(blanks(tape.of([Math.min(column, deepest), 0, deepest])) + comment(page));
      page.open = null;
    } else if (page.open === null) lines.push(tape.of(['', '', blanks(column)]));
    else if (!page.open.keeps) lines.push('');
  }
};

const isPlainText = (text: string): boolean =>
  /^(?:[A-Za-z][A-Za-z0-9 ._/-]*[A-Za-z0-9]|\d+(?:\.\d+)? [A-Za-z°]+|\d{4}-\d\d-\d\dT\d\d:\d\d)$/u.test(
    text,
  ) && !/^(?:true|false|null)$/u.test(text);

const quotedText = (tape: Tape, text: string): string =>
  tape.chance(50) && !/[\n\t]/u.test(text) ? `'${text.replace(/'/gu, "''")}'` : JSON.stringify(text);

const scalarOf = (tape: Tape, value: string | number | boolean | null): string => {
  if (value === null) return tape.of(['null', '~']);
  if (typeof value !== 'string') return String(value);
  return isPlainText(value) && tape.chance(70) ? value : quotedText(tape, value);
};

/** Breaks a text at single blanks, where a reader joins it again. */
const folded = (tape: Tape, text: string, indent: string): string =>
  text.replace(/(?<=[^\s\\]) (?=[A-Za-z])/gu, (blank) => (tape.chance(20) ? `\n${indent}` : blank));

/** A text on lines of its own behind `|` or `>`, or null where it cannot be written so. */
const blockText = (page: Page, head: string, text: string, indent: number): boolean => {
  const { tape, lines } = page;
  if (!/\S/u.test(text) || !tape.chance(70)) return false;
  const column = indent + 1 + tape.pick(4);
  const isFolded = !/\n./u.test(text) && !/^\s/u.test(text) && tape.chance(50);
  const ends = /\n*$/u.exec(text)?.[0].length ?? 0;
  const chomp = ends === 0 ? '-' : ends > 1 || tape.chance(30) ? '+' : '';
  const explicit = /^\s/u.test(text) || tape.chance(10) ? String(column - indent) : '';
  const note = tape.chance(10) ? ` ${comment(page)}` : '';
  lines.push(`${head} ${isFolded ? '>' : '|'}${explicit}${chomp}${note}`);
  const body = text.slice(0, text.length - ends);
  const shown = isFolded ? folded(tape, body, '') : body;
  for (const line of shown.split('\n')) lines.push(line === '' ? '' : blanks(column) + line);
  for (let count = 1; count < ends; count += 1) lines.push('');
  page.open = { column, keeps: chomp === '+' };
  return true;
};

const keyOf = (tape: Tape, key: string): string =>
  isPlainText(key) && tape.chance(80) ? key : quotedText(tape, key);

/** Things in brackets, on one line or on several; `indent` is how deep further lines must be. */
const inBrackets = (
  page: Page,
  [open, close]: readonly [string, string],
  parts: string[],
  indent: number,
): string => {
  const { tape } = page;
  const inner = blanks(indent + tape.pick(3));
  const shut = blanks(indent);
  const remark = (): string => (tape.chance(30) ? ` ${comment(page)}` : '');
  const ownLine = (): string => (tape.chance(15) ? `\n${inner === '' ? ' ' : inner}${comment(page)}` : '');
  if (parts.length === 0) {
    return tape.of([
      () => `${open}${close}`,
      () => `${open} ${close}`,
      () => `${open}\n${shut}${close}`,
      () => `${open} ${comment(page)}\n${shut}${close}`,
    ])();
  }
  const all = parts.join(', ');
  return tape.of([
    () => `${open}${all}${close}`,
    () => `${open} ${all} ${close}`,
    () => `${open}${all},${close}`,
    () => `${open}${all} ,\t${close}`,
    () => `${open}${parts.join(',\t')}\t${close}`,
    () => `${open}\n${inner}${parts.join(`,\n${inner}`)}\n${shut}${close}`,
    () => `${open}\n${inner}${parts.join(`,\n${inner}`)},\n${shut}${close}`,
    () => `${open}${parts.join(`,\n${inner}`)}${close}`,
    () => `${open} ${parts.join(`\n${inner}, `)}\n${shut}${close}`,
    () => `${open}${all} ${comment(page)}\n${shut}${close}`,
    () => `${open}${all}, ${comment(page)}\n${shut}${close}`,
    () => {
      const lines = parts.map((part, index) => {
        const comma =
          index < parts.length - 1 || tape.chance(40) ? tape.of([',', ',', ' ,', `\n${inner},`]) : '';
        return `${ownLine()}\n${inner}${part}${comma}${remark()}`;
      });
      return `${open}${remark()}${lines.join('')}${ownLine()}\n${shut}${close}`;
    },
  ])();
};

const flowPair = (page: Page, key: string, value: Plain, indent: number): string => {
  const { tape } = page;
  const name = keyOf(tape, key);
  if (value === null && tape.chance(60)) return tape.of([`${name}:`, `${name}: `, name]);
  const shown = flow(page, value, indent);
  if (name.startsWith('"') && tape.chance(30)) return `${name}:${shown}`;
  return tape.chance(4) ? `? ${name} : ${shown}` : `${name}: ${shown}`;
};

/** A value in brackets and braces throughout. */
const flow = (page: Page, value: Plain, indent: number): string => {
  const { tape } = page;
  if (Array.isArray(value)) {
    const items = value.map((item: Plain) => {
      const pairs = isMap(item) ? Object.entries(item) : [];
      const [only] = pairs;
      const short = only && pairs.length === 1 && typeof only[1] === 'string' && !only[0].includes(' ');
      // A single pair needs no braces in a list.
      return short && tape.chance(20)
        ? `${only[0]}: ${scalarOf(tape, only[1] as string)}`
        : flow(page, item, indent + 1);
    });
    return inBrackets(page, ['[', ']'], items, indent);
  }
  if (isMap(value)) {
    const pairs = Object.entries(value).map(([key, item]) => flowPair(page, key, item, indent + 1));
    return inBrackets(page, ['{', '}'], pairs, indent);
  }
  return scalarOf(tape, value as string | number | boolean | null);
};

/** A value behind a head such as `key:`; `indent` is the column of that key. */
const behind = (page: Page, head: string, value: Plain, indent: number, isItem: boolean): void => {
  const { tape, lines } = page;
  page.open = null;
  if (value === null && tape.chance(60)) {
    lines.push(head + tail(page));
    return;
  }
  if (typeof value === 'string') {
    if (blockText(page, head, value, indent)) return;
    const shown = scalarOf(tape, value);
    const canFold = shown === value || !shown.includes('\\');
    const text = canFold ? folded(tape, shown, blanks(indent + 1 + tape.pick(3))) : shown;
    lines.push(...`${head} ${text}${tail(page)}`.split('\n'));
    return;
  }
  const isCollection = Array.isArray(value) || isMap(value as Plain);
  const isEmpty = isCollection && Object.keys(value as object).length === 0;
  if (!isCollection || isEmpty || tape.chance(35)) {
    const below = tape.chance(8) ? `${tail(page)}\n${blanks(indent + 1)}` : blanks(1 + tape.pick(2));
    lines.push(...`${head}${below}${flow(page, value as Plain, indent + 1)}${tail(page)}`.split('\n'));
    return;
  }
  lines.push(head + tail(page));
  const least = Array.isArray(value) && !isItem ? 0 : 1;
  const deeper = tape.of([2, 2, least, 1, 4]);
  if (Array.isArray(value)) list(page, value, indent + deeper);
  else map(page, value as PlainMap, indent + deeper);
};

const map = (page: Page, value: PlainMap, column: number, lead?: string): void => {
  for (const [index, [key, item]] of Object.entries(value).entries()) {
    if (index > 0 || lead === undefined) gap(page, column);
    const start = index === 0 && lead !== undefined ? lead : blanks(column);
    const name = keyOf(page.tape, key);
    if (page.tape.chance(4)) {
      page.lines.push(`${start}? ${name}`);
      behind(page, `${blanks(column)}:`, item, column, true);
    } else behind(page, `${start}${name}:`, item, column, false);
  }
};

const list = (page: Page, items: readonly Plain[], column: number, lead?: string): void => {
  const { tape } = page;
  const wide = tape.of([1, 1, 1, 2, 3]);
  for (const [index, item] of items.entries()) {
    if (index > 0 || lead === undefined) gap(page, column);
    const start = `${index === 0 && lead !== undefined ? lead : blanks(column)}-`;
    const gapWidth = tape.chance(10) ? 1 + tape.pick(4) : wide;
    const compact = tape.chance(80);
    const inner = `${start}${blanks(gapWidth)}`;
    if (compact && isMap(item) && Object.keys(item).length > 0 && tape.chance(65)) {
      page.open = null;
      map(page, item, inner.length, inner);
    } else if (compact && Array.isArray(item) && item.length > 0 && tape.chance(65)) {
      page.open = null;
      list(page, item, inner.length, inner);
    } else behind(page, start, item, column, true);
  }
};

const blockFile = (page: Page, job: PlainMap): string => {
  const { tape, lines } = page;
  if (tape.chance(10)) lines.push(comment(page));
  if (tape.chance(10)) lines.push(`---${tail(page)}`);
  map(page, job, tape.chance(5) ? 2 : 0);
  const keeps = page.open?.keeps ?? false;
  if (tape.chance(10)) return `${lines.join('\n')}\n...\n${tape.of(['', '# the end\n', '\n'])}`;
  if (keeps) return `${lines.join('\n')}\n`;
  if (tape.chance(15)) lines.push(comment(page));
  return lines.join('\n') + tape.of(['\n', '\n', '', '\n\n\n']);
};

/** A job as the text of a file, in one of the many layouts that say the same. */
export const randomLayout = (tape: Tape, job: PlainMap): string => {
  const page: Page = { lines: [], tape, comments: 0, open: null };
  const kind = tape.pick(20);
  const end = tape.of(['\n', '', '\n\n']);
  let text: string;
  if (kind >= 18) text = JSON.stringify(job, null, tape.of<number | string>([2, 0, 4, '\t'])) + end;
  else if (kind >= 16) text = `${tape.of(['', '# a job\n', '--- '])}${flow(page, job, 0)}${end}`;
  else text = blockFile(page, job);
  return tape.chance(20) ? text.replaceAll('\n', '\r\n') : text;
};
