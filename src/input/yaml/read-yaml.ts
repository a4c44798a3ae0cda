import {
  type Document,
  isCollection,
  isNode,
  isPair,
  isScalar,
  type ParsedNode,
  visit,
  type YAMLMap,
  type YAMLParseError,
  type YAMLSeq,
} from 'yaml';
import type { LocatedFlaw } from '../problem.ts';
import { composeGuarded, composerErrors, deepest } from './compose-guarded.ts';
import { emptyHint } from './decode.ts';
import { fastTree } from './fast/fast-tree.ts';
import { type Lines, linesOf } from './lines.ts';
import { syntaxWording, type Wording, wrongIndent } from './syntax-words.ts';
import type { Node } from './tree.ts';
import { toTree } from './yaml-tree.ts';

export interface YamlFile {
  /** The top map; null where nothing could be made of the text, so that only its own flaws are worth telling. */
  readonly root: Node | null;
  readonly flaws: readonly LocatedFlaw[];
}

type Parsed = Document.Parsed<ParsedNode>;

const only = (flaw: LocatedFlaw): YamlFile => ({ root: null, flaws: [flaw] });

/** Whether the bracket at the end of a collection is its own, and not that of the last thing in it. */
const isClosed = ({ items }: YAMLMap | YAMLSeq, end: number, text: string): boolean => {
  const last: unknown = items.at(-1);
  const inner = isPair(last) ? (last.value ?? last.key) : last;
  const innerEnd = isNode(inner) ? inner.range?.[1] : undefined;
  return /[\]}]/u.test(text[end - 1] ?? '') && innerEnd !== end;
};

/** Where the text of a line begins, for what the parser places at the line's own beginning. */
const pastBlanks = (text: string, at: number): number => {
  let place = at;
  while (text[place] === ' ') place += 1;
  return place;
};

/** Finds where a quote or bracket that was never closed was opened: that is the place to mend. */
const openings = (document: Parsed, text: string): ((at: number) => number) => {
  const quotes = new Map<number, number>();
  const brackets: number[] = [];
  visit(document, {
    Node: (_key, node) => {
      const [start = 0, end = 0] = node.range ?? [];
      if (isScalar(node) && /^QUOTE/u.test(node.type ?? '')) quotes.set(end, start);
      if (isCollection(node) && node.flow === true && !isClosed(node, end, text)) brackets.push(start);
    },
  });
  return (at) => quotes.get(at) ?? brackets.findLast((start) => start < at) ?? at;
};

/** One mistake a line: after the first the parser mostly stumbles over its own feet. */
const syntaxFlaws = (
  document: Parsed,
  text: string,
  lines: Lines,
): { flaws: LocatedFlaw[]; broken: boolean } => {
  const byLine = new Map<number, { error: YAMLParseError; wording: Wording }>();
  let broken = false;
  const errors = composerErrors(document);
  const tangled = new Set(
    errors.filter(({ code }) => code === 'MULTILINE_IMPLICIT_KEY').map(({ pos }) => pos[0]),
  );
  for (const error of errors) {
    const at = error.pos[0];
    const nested = error.code === 'BLOCK_AS_IMPLICIT_KEY' && tangled.has(at);
    const wording = nested ? wrongIndent : syntaxWording(error);
    broken ||= !wording.harmless;
    const line = lines.lineOf(at);
    if (!byLine.has(line)) byLine.set(line, { error, wording });
  }
  const unclosed = [...byLine.values()].some(({ wording }) => wording.unclosed);
  const openedAt = unclosed ? openings(document, text) : (at: number): number => at;
  const flaws = [...byLine.values()].map(({ error, wording: { code, message, hint, unclosed: isOpen } }) => ({
    code: code ?? ('yaml-syntax' as const),
    at: isOpen ? openedAt(error.pos[0]) : pastBlanks(text, error.pos[0]),
    message,
    hint,
  }));
  return { flaws, broken };
};

/** What stands around the one document that is read. */
const surroundingFlaws = (documents: readonly Parsed[], directives: readonly number[]): LocatedFlaw[] => [
  ...directives.slice(0, 1).map(
    (at): LocatedFlaw => ({
      code: 'yaml-syntax',
      at,
      message: 'lines that begin with % are not allowed',
      hint: 'remove it; put a text that begins with % in quotes',
    }),
  ),
  ...documents.slice(1, 2).map(
    ({ range }): LocatedFlaw => ({
      code: 'several-documents',
      at: range[0],
      message: 'a second document begins here',
      hint: 'keep one document in a file: remove the "---" or "..." and what follows it',
    }),
  ),
];

const nothing = (document: Parsed): boolean =>
  isScalar(document.contents) && document.contents.value === null && document.contents.source === '';

const parse = (text: string): YamlFile => {
  const { documents, directives, tooDeep, tooMany } = composeGuarded(text);
  if (tooMany !== null) {
    const hint = 'a job is a few pages; check that this is the file you meant';
    const message = 'this file holds more than the 100 000 words and signs that are read';
    return only({ code: 'too-many', at: tooMany, message, hint });
  }
  if (tooDeep !== null) {
    const hint = 'a job needs about eight; take out the surplus brackets, dashes or blanks';
    return only({
      code: 'too-deep',
      at: tooDeep,
      message: `this nests more than ${deepest} levels deep`,
      hint,
    });
  }
  const [document] = documents;
  const around = surroundingFlaws(documents, directives);
  if (!document?.contents || (nothing(document) && document.errors.length === 0)) {
    const empty: LocatedFlaw = {
      code: 'file-empty',
      at: 0,
      message: 'there is nothing in this file',
      hint: emptyHint,
    };
    return { root: null, flaws: around.length > 0 ? around : [empty] };
  }
  const lines = linesOf(text);
  const syntax = syntaxFlaws(document, text, lines);
  if (syntax.broken) return { root: null, flaws: [...around, ...syntax.flaws] };
  const { root, flaws } = toTree(document.contents, text, lines);
  const all = [...around, ...syntax.flaws, ...flaws];
  if (root.kind === 'map') return { root, flaws: all };
  const what = root.kind === 'list' ? 'a list' : 'a text';
  const message = `this file is ${what}, and lines of key: value are wanted`;
  return { root: null, flaws: [...all, { code: 'wrong-type', at: root.start, message, hint: emptyHint }] };
};

/** A carriage return alone ends a line for some editors and none for YAML; nothing good comes of guessing. */
const loneReturn = (text: string): number => text.search(/\r(?!\n)/u);

/** The same as `readYaml` by the reference parser alone. */
export const readByReference = (text: string): YamlFile => {
  const at = loneReturn(text);
  if (at >= 0) {
    const hint = 'save the file with the line endings of Unix or Windows';
    return only({ code: 'control-character', at, message: 'there is a lone carriage return here', hint });
  }
  try {
    return parse(text);
  } catch (error) {
    // The guard keeps depth away from the composer; this is for a text that exhausts it in a way not thought of.
    if (!(error instanceof RangeError)) throw error;
    const hint = 'look for a long run of one character or line';
    return only({ code: 'yaml-syntax', at: 0, message: 'this text is too tangled to be read', hint });
  }
};

/**
 * YAML 1.2 text to a tree, collecting every flaw. Never throws for what stands in the text. Ordinary texts never meet
 * the reference parser; whatever is wrong or unusual is its to tell.
 */
export const readYaml = (text: string): YamlFile => {
  const root = fastTree(text);
  return root ? { root, flaws: [] } : readByReference(text);
};
