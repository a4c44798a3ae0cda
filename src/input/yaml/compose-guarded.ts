import { Composer, type Document, Lexer, type ParsedNode, Parser, type YAMLParseError } from 'yaml';

/** Deeper than any job or pack, and far from what a recursive composer can bear. */
export const deepest = 64;

const mostErrors = 1000;

/** Words, signs and blanks of a text that are read; a job of ten pages has some ten thousand. */
export const mostPieces = 100_000;

/** Tags, anchors, aliases and escapes that mean nothing, none of which is allowed, that are read. */
const mostMarks = 1000;

const escapes = /\\(?:([0abefnrtvN_LP "/\\\t\r\n]|x[\da-fA-F]{2}|u[\da-fA-F]{4}|U[\da-fA-F]{8})|)/gu;

/** What of a piece of text is not allowed, however it is meant: the composer makes an error of each. */
const marksIn = (lexeme: string): number => {
  if (/^[!&*]/u.test(lexeme)) return 1;
  let marks = 0;
  if (lexeme.startsWith('"')) {
    for (const [, known] of lexeme.matchAll(escapes)) {
      if (known === undefined) marks += 1;
      if (marks > mostMarks) break;
    }
  }
  return marks;
};

export interface Composed {
  readonly documents: readonly Document.Parsed<ParsedNode>[];
  /** Offsets of `%` lines, which could change what the text means. */
  readonly directives: readonly number[];
  /** Where the text first nests deeper than `deepest`; nothing was composed from there on. */
  readonly tooDeep: number | null;
  /** Where there is more than anybody needs; nothing was composed from there on. */
  readonly tooMany: number | null;
}

/** Composer options: strict YAML 1.2. Duplicate keys are found by our own walk, in linear time. */
const options = {
  version: '1.2',
  schema: 'core',
  uniqueKeys: false,
  logLevel: 'silent',
  // Tags are an error wherever they stand; what the known ones mean would only be work, and may throw.
  resolveKnownTags: false,
} as const;

/**
 * Parses a text token by token and stops where it nests too deep. The parser keeps what is open on a stack, whose
 * height is the depth; the composer, which recurses, only ever sees what stayed below the limit. Overflowing it
 * cannot be left to a `catch`: two deep documents in one process can end that process.
 */
export const composeGuarded = (text: string): Composed => {
  const parser = new Parser();
  const composer = new Composer(options);
  const documents: Document.Parsed<ParsedNode>[] = [];
  const directives: number[] = [];
  let errors = 0;
  const take = (tokens: ReturnType<Parser['next']>): void => {
    for (const token of tokens) {
      if (token.type === 'error') errors += 1;
      if (token.type === 'directive') directives.push(token.offset);
      else
        for (const document of composer.next(token)) documents.push(document as Document.Parsed<ParsedNode>);
    }
  };
  let pieces = 0;
  let marks = 0;
  for (const lexeme of new Lexer().lex(text)) {
    pieces += 1;
    marks += marksIn(lexeme);
    if (pieces > mostPieces || marks > mostMarks) {
      return { documents: [], directives, tooDeep: null, tooMany: parser.offset };
    }
    take(parser.next(lexeme));
    // The document itself stands at the bottom of the stack.
    if (parser.stack.length > deepest + 1) {
      const tooDeep = Math.max(0, parser.offset - lexeme.length);
      return { documents: [], directives, tooDeep, tooMany: null };
    }
    // A text with that many stray tokens is no YAML, and finding them all would take its time.
    if (errors > mostErrors) break;
    // One document is read; that there is a second is all that needs to be known of the rest.
    if (documents.length > 1) break;
  }
  take(parser.end());
  for (const document of composer.end(true, text.length))
    documents.push(document as Document.Parsed<ParsedNode>);
  return { documents, directives, tooDeep: null, tooMany: null };
};

/** Everything that the composer found wrong with a document. */
export const composerErrors = (document: Document.Parsed<ParsedNode>): YAMLParseError[] => [
  ...document.errors,
  ...document.warnings,
];
