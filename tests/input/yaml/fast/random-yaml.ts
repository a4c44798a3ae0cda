import fc from 'fast-check';
import { type Tape, tapeOf } from '../../edit/random-job.ts';

const key = fc.constantFrom(
  ...[
    'at',
    'code',
    'status',
    'x-own',
    'LF',
    'readings',
    '"quoted key"',
    "'it''s'",
    'größe',
    'two words',
    '12',
  ],
);

/** What stands in every file. */
const usual = fc.constantFrom(
  ...['2.48 V', 'Shuttle 7', '2026-03-02', '2026-03-02T08:15', '12:30', '1', '-4', '0.50', '-0', 'true', '~'],
  ...[
    '"in: quotes"',
    "'it''s'",
    "''",
    '8 °C',
    'a#b',
    'key:value',
    'yes',
    '(a)',
    '+3 V',
    './a',
    '0x28',
    'null',
  ],
);

/** What reads otherwise than it looks, or not at all. */
const odd = fc.constantFrom(
  ...[
    '1e3',
    '0x1F',
    '0o7',
    '.5',
    '5.',
    '012',
    '.nan',
    '-.inf',
    '1_000',
    '"\\u00b5"',
    '',
    '- -',
    '? ',
    'a: b: c',
  ],
  ...[
    '#',
    '@a',
    '`a`',
    '%a',
    '&a b',
    '*a',
    '!t a',
    '|',
    '>-',
    '<<',
    '-',
    '--- a',
    '"open',
    "'open",
    'a, b',
    '𝛀',
  ],
);

const scalar = fc.oneof({ weight: 8, arbitrary: usual }, { weight: 1, arbitrary: odd });

const flow: fc.Arbitrary<string> = fc.letrec<{ any: string }>((tie) => ({
  any: fc.oneof(
    { depthSize: 'small', withCrossShrink: true },
    scalar,
    fc
      .tuple(fc.array(tie('any'), { maxLength: 3 }), fc.constantFrom(', ', ',', ' , ', ',\n      '))
      .map(([items, comma]) => `[${items.join(comma)}]`),
    fc
      .tuple(fc.array(fc.tuple(key, tie('any')), { maxLength: 3 }), fc.constantFrom(', ', ',', ',\n        '))
      .map(([pairs, comma]) => `{${pairs.map(([name, value]) => `${name}: ${value}`).join(comma)}}`),
  ),
})).any;

const lineBody = fc.oneof(
  { weight: 6, arbitrary: fc.tuple(key, flow).map(([name, value]) => `${name}: ${value}`) },
  { weight: 3, arbitrary: key.map((name) => `${name}:`) },
  { weight: 2, arbitrary: flow },
  { weight: 2, arbitrary: fc.constantFrom('# comment', '', '---', '...', '? a', ': b', '- ') },
  {
    weight: 2,
    arbitrary: fc
      .tuple(key, fc.constantFrom('>', '>-', '|', '|-', '|+', '>2', '>- # why'))
      .map(([name, sign]) => `${name}: ${sign}`),
  },
);

const line = fc
  .tuple(
    fc.constantFrom(0, 0, 0, 0, 2, 2, 4, 1, 3),
    fc.constantFrom('', '', '', '', '- ', '-   ', '- - '),
    lineBody,
    fc.constantFrom('', '', '', '', '', ' ', ' # why', '#x', '\t'),
  )
  .map(([indent, dash, body, tail]) => ' '.repeat(indent) + dash + body + tail);

/** Lines of any indent in any order: few are good YAML, and what is wrong with the others differs. */
export const wildText: fc.Arbitrary<string> = fc
  .tuple(fc.constantFrom('\n', '\n', '\r\n'), fc.array(line, { minLength: 1, maxLength: 6 }), fc.boolean())
  .map(([end, lines, last]) => lines.map((one) => one.replaceAll('\n', end)).join(end) + (last ? end : ''));

const everyday = ['2.48 V', 'Shuttle 7', '2026-03-02T08:15', '12:30', '1', '-4', 'true', '~', '8 °C', '0.50'];
const quotedOnes = ['"in: quotes"', "'it''s'", '"# none"', "''"];
const inBrackets = [
  '[]',
  '{}',
  '[1.60 V, 3.10 V]',
  '{LF: 2.48 V, why: "a, b"}',
  '[{a: [b]}, c ]',
  `[a,\n${' '.repeat(60)}b]`,
];
const remarks = ['# at the left', '  # in', '      # further in', '            # far in', '', '   '];

const blanks = (count: number): string => ' '.repeat(count);

const inBlocks = ['one line', 'two words: # here', '- no list', '{no: map}', "'no quotes", '# no remark'];

/** A text below its sign, which stands behind a key or a dash. */
const writeText = (tape: Tape, lines: string[], head: string, column: number): void => {
  lines.push(head + tape.of([' >', ' >-', ' |', ' |-']) + tape.of(['', '', '  ', ' # why']));
  const indent = blanks(column + 1 + tape.pick(4));
  for (let index = 0, count = 1 + tape.pick(4); index < count; index += 1) {
    if (index > 0 && tape.chance(20)) lines.push('');
    lines.push(indent + tape.of(inBlocks) + tape.of(['', '', '  ']));
  }
  const remark = tape.of([`${blanks(column)}# here`, '# at the left', `${indent.slice(1)}# further out`]);
  if (tape.chance(25)) lines.push(...(tape.chance(50) ? ['', remark] : [remark]));
};

/** A remark or a line of blanks; not below a text, since further in than that it would be a part of it. */
const writeRemark = (tape: Tape, lines: string[], column: number): void => {
  if (inBlocks.includes(lines.at(-1)?.trim() ?? '')) return;
  if (tape.chance(25)) lines.push(tape.chance(40) ? `${blanks(column)}# here` : tape.of(remarks));
};

const writeValue = (tape: Tape, lines: string[], head: string, column: number, depth: number): void => {
  const kind = tape.pick(depth > 3 ? 7 : 11);
  const next = column + 1 + tape.pick(4);
  if (kind === 6) writeText(tape, lines, head, column);
  else if (kind < 6) {
    const value = tape.of(kind < 4 ? everyday : kind < 5 ? quotedOnes : inBrackets);
    lines.push(`${head} ${value}${tape.of(['', '', '', '  ', ' # why'])}`);
  } else {
    lines.push(head + tape.of(['', '', '  ', ' # why']));
    if (tape.chance(20)) lines.push(tape.of(remarks));
    if (kind < 8) lines.push(`${blanks(next)}${tape.of(inBrackets)}`);
    else if (kind < 9) writeMap(tape, lines, blanks(next), next, depth + 1);
    else writeList(tape, lines, tape.chance(40) ? column : next, depth + 1);
  }
  writeRemark(tape, lines, column);
};

const writeMap = (tape: Tape, lines: string[], first: string, column: number, depth: number): void => {
  for (let index = 0, count = 1 + tape.pick(4); index < count; index += 1) {
    writeValue(tape, lines, `${index === 0 ? first : blanks(column)}key-${index}:`, column, depth);
  }
};

const writeList = (tape: Tape, lines: string[], column: number, depth: number): void => {
  for (let index = 0, count = 1 + tape.pick(3); index < count; index += 1) {
    const dash = `${blanks(column)}-${blanks(1 + tape.pick(3))}`;
    if (tape.chance(10)) writeText(tape, lines, dash.trimEnd(), column);
    else if (tape.chance(60)) writeMap(tape, lines, dash, dash.length, depth);
    else lines.push(dash + tape.of([...everyday, ...quotedOnes, ...inBrackets]));
    writeRemark(tape, lines, column);
  }
};

/** Ordinary files: blocks in blocks, indented by this and that, with comments and blank lines at any depth. */
export const ordinaryText: fc.Arbitrary<string> = fc
  .uint16Array({ minLength: 150, maxLength: 400 })
  .map((numbers) => {
    const tape = tapeOf(numbers);
    const lines: string[] = [];
    writeMap(tape, lines, '', 0, 0);
    const end = tape.of(['\n', '\r\n']);
    return lines.join('\n').replaceAll('\n', end) + tape.of([end, '']);
  });

const pieces = [
  ...[
    ' ',
    '  ',
    '\n',
    '\r\n',
    '\t',
    ':',
    ': ',
    '#',
    ' #',
    '-',
    '- ',
    '"',
    "'",
    '{',
    '}',
    '[',
    ']',
    ',',
    ', ',
  ],
  ...[
    '&',
    '*',
    '!',
    '|',
    '>',
    '>-\n',
    '|\n   ',
    '%',
    '@',
    '`',
    '?',
    '? ',
    '\\',
    '~',
    '.',
    '0',
    'a',
    '---\n',
    '\n...\n',
    '\u202e',
  ],
];

const mutatedOnce = (text: string, tape: Tape): string => {
  const at = tape.pick(text.length + 1);
  const lines = text.split('\n');
  const line = tape.pick(lines.length);
  switch (tape.pick(6)) {
    case 0:
      return text.slice(0, at) + text.slice(at + 1);
    case 1:
      return text.slice(0, at) + tape.of(pieces) + text.slice(at);
    case 2:
      return text.slice(0, at) + tape.of(pieces) + text.slice(at + 1);
    case 3:
      return lines.toSpliced(line, tape.pick(2), ...(tape.chance(50) ? [tape.of(remarks)] : [])).join('\n');
    case 4:
      return lines.with(line, blanks(tape.pick(5)) + (lines[line] ?? '').slice(tape.pick(3))).join('\n');
    default:
      return lines.toSpliced(tape.pick(lines.length), 0, lines[line] ?? '').join('\n');
  }
};

/** A text with up to three mistakes that a hand makes: characters and lines lost, doubled, moved. */
export const mutated = (text: string, tape: Tape): string => {
  let changed = text;
  for (let left = 1 + tape.pick(3); left > 0; left -= 1) changed = mutatedOnce(changed, tape);
  return changed;
};
