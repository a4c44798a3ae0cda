/** A text by its kind. */
export type WorstText = readonly [kind: string, text: string];

const head = `worksheet: 1
vehicle: {name: Shuttle 7, layout: four-corner-air}
packs: [position-signals@2, supply-charging@2, handover@2]
`;

const minute = (index: number): string => new Date(Date.UTC(2026, 0, 1) + index * 60_000).toISOString();

/**
 * The dearest texts that a file may hold: many of one thing, in all its forms.
 *
 * @param size about how large each is, in bytes
 */
export const worstTexts = (size: number): readonly WorstText[] => {
  const full = (head: string, piece: string, tail = ''): string =>
    head + piece.repeat(Math.floor((size - head.length - tail.length) / Buffer.byteLength(piece))) + tail;

  /** Pieces that differ by a number. */
  const counted = (head: string, piece: (index: number) => string, tail = ''): string => {
    const pieces: string[] = [];
    let taken = head.length + tail.length;
    for (let index = 0; ; index += 1) {
      const next = piece(index);
      taken += Buffer.byteLength(next);
      if (taken > size) return head + pieces.join('') + tail;
      pieces.push(next);
    }
  };

  const flow: readonly WorstText[] = [
    ['numbers in brackets without blanks', full('x: [', '1,')],
    ['numbers in brackets', full('x: [', '1, ', '1]')],
    ['numbers in closed brackets without blanks', full('x: [', '1,', '1]')],
    ['empty lists in a list', full('x: [', '[],', '1]')],
    ['empty maps in a list', full('x: [', '{},', '1]')],
    ['pairs in brackets', full('x: [', 'a: 1, ', '1]')],
    ['one key again and again in braces', full('x: {', 'a: 1, ', 'b: 1}')],
    ['many keys in braces', counted('x: {', (index) => `k${index}: 1, `, 'z: 1}')],
    ['keys without values in braces', counted('x: {', (index) => `k${index}, `, 'z}')],
    ['question marks in brackets', full('x: [', '? a, ', 'b]')],
    ['brackets that open', full('x: ', '[')],
    ['braces that open', full('x: ', '{a: ')],
    ['brackets that close', full('x: ', ']')],
    ['commas in brackets', full('x: [', ',', ']')],
    ['commas in braces', full('x: {', ',', '}')],
    ['colons in braces', full('x: {', ': ,', '}')],
    ['quoted texts in brackets', full('x: [', '"a",', '"b"]')],
    ['brackets over many lines', full('x: [\n', '  1,\n', '  1]')],
    ['lists of lists', full('x: [', '[[[[1]]]], ', '1]')],
    ['comments in brackets', full('x: [\n', '  1, # one\n', '  1]')],
  ];

  const blocks: readonly WorstText[] = [
    ['one key again and again', full('', 'a: 1\n')],
    ['many keys', counted('', (index) => `k${index}: 1\n`)],
    ['keys without values', counted('', (index) => `k${index}:\n`)],
    ['colons', full('', ':\n')],
    ['items', full('x:\n', '- 1\n')],
    ['items without values', full('x:\n', '-\n')],
    ['items in items', full('x:\n', '- - 1\n')],
    ['maps in items', full('x:\n', '- a: 1\n')],
    ['maps in items with one key twice', full('x:\n', '- a: 1\n  a: 1\n')],
    ['question marks', full('', '? a\n: b\n')],
    ['question marks without values', full('', '? a\n')],
    ['second colons', full('', 'a: b: c\n')],
    ['lines that do not line up', full('', 'a: 1\n b: 2\n')],
    ['a wave of indents', full('', 'a:\n b:\n  c:\n   d: 1\n')],
    ['words without a colon', full('', 'word\n')],
    ['tabs', full('a: 1\n', '\tb: 2\n')],
    ['blank lines', full('a: 1\n', '\n', 'b: 1\n')],
    ['blanks', full('a: 1\n', '          \n', 'b: 1\n')],
    ['comments', full('a: 1\n', '# x\n', 'b: 1\n')],
    ['comments behind values', counted('', (index) => `k${index}: 1 # x\n`)],
    ['carriage returns', full('a: 1\n', '\r', 'b: 1\n')],
    ['Windows line ends', counted('', (index) => `k${index}: 1\r\n`)],
  ];

  const marks: readonly WorstText[] = [
    ['tags', full('x:\n', '- !a 1\n')],
    ['tags in brackets', full('x: [', '!!str a,', 'b]')],
    ['one tag behind another', full('x: ', '!a ', 'b')],
    ['known tags', full('x:\n', '- !!omap [a: 1]\n')],
    ['sets', full('x:\n', '- !!set {a, b}\n')],
    ['long tags', full('x:\n', '- !<tag:example,2026:a> b\n')],
    ['anchors', counted('x:\n', (index) => `- &a${index} 1\n`)],
    ['one anchor behind another', full('x: ', '&a ', 'b')],
    ['aliases', full('x: &a 1\ny:\n', '- *a\n')],
    ['aliases of nothing', full('x:\n', '- *a\n')],
    ['merges', full('x: &a {b: 1}\n', 'y: {<<: *a}\n')],
    ['directives', full('', '%YAML 1.2\n', '---\na: 1\n')],
    ['documents', full('', '---\na: 1\n')],
    ['ends of documents', full('a: 1\n', '...\n')],
    ['at signs', full('', 'a: @\n')],
    ['backticks', full('x: [', '`,', ']')],
  ];

  const texts: readonly WorstText[] = [
    ['one text', full('x: ', 'a')],
    ['one text in quotes', full('x: "', 'a', '"')],
    ['a quote that is not closed', full('x: "', 'a\n ')],
    ['escapes', full('x: "', '\\n', '"')],
    ['wrong escapes', full('x: "', '\\q', '"')],
    ['lines in quotes', full('x: "', 'a\n ', '"')],
    ['a text over many lines', full('x: a\n', ' b\n')],
    ['one block of text', full('x: |\n', ' b\n')],
    ['folded blocks of text', full('x:\n', '- >\n  b\n')],
    ['long keys', full('', 'k', ': 1\n')],
    ['controls', full('x: [', '"\u0001", ', '"b"]')],
    ['digits', full('x: ', '1')],
    ['numbers that are none', full('x:\n', '- 012\n')],
    ['numbers too large', full('x:\n', '- 1e999\n')],
    ['decimal commas', full('x: [', '12,3 V, ', '1]')],
    ['a byte order mark in each line', full('', '\ufeffa: 1\n')],
  ];

  const jobs: readonly WorstText[] = [
    ['unknown keys of a vehicle', counted(`${head}x-own: {`, (index) => `k${index}: 1, `, 'z: 1}\n')],
    ['unknown channels', counted(`${head}readings: {`, (index) => `k${index}: 1 V, `, 'z: 1 V}\n')],
    [
      'snapshots',
      counted(`${head}snapshots:\n`, (i) => `- {state: key-on, at: ${minute(i)}, readings: {LF: 2.5}}\n`),
    ],
    ['snapshots that are none', full(`${head}snapshots: [`, '1, ', '1]\n')],
    [
      'one snapshot with a name again and again',
      full(`${head}snapshots:\n`, '- {id: a, state: key-on, at: 2026-03-02T08:00Z}\n'),
    ],
    ['repeats of a reading', full(`${head}readings: {supply: [`, '12.2 V, ', '12.2 V]}\n')],
    [
      'codes',
      counted(`${head}codes: [`, (i) => `C3${(i % 4096).toString(16).padStart(3, '0')}, `, 'C3000]\n'),
    ],
    [
      'log entries',
      counted(`${head}log:\n`, (index) => `- {at: ${minute(index)}, did: noted, what: vehicle}\n`),
    ],
    [
      'replacements',
      counted(`${head}log:\n`, (index) => `- {at: ${minute(index)}, did: replaced, what: sensor.LR}\n`),
    ],
    [
      'unknown words of the log',
      full(`${head}log:\n`, '- {at: 2026-03-02T08:00Z, did: fiddled, what: senor.LR}\n'),
    ],
    [
      'packs that are none',
      counted(`${head.split('packs')[0]}packs: [`, (index) => `p${index}@1, `, 'p@1]\n'),
    ],
    [
      'waivers',
      counted(
        `${head}waivers:\n`,
        (index) => `- {finding: supply-charging/c${index}, reason: r, by: b, until: 2026-03-09}\n`,
      ),
    ],
    ['times that are none', full(`${head}log:\n`, '- {at: yesterday, did: noted, what: vehicle}\n')],
    ['a complaint', full(`${head}complaint: `, 'low ', '\n')],
    ['recent work', full(`${head}recent-work: [`, 'sensor.RR, ', 'tyres]\n')],
  ];

  return [...flow, ...blocks, ...marks, ...texts, ...jobs];
};
