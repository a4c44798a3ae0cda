import type { YAMLParseError } from 'yaml';
import type { ProblemCode } from '../../core/flaw.ts';

/** How one of the parser's errors is told. */
export interface Wording {
  /** The parser's code, and where it covers several mistakes a part of its message. */
  readonly of: string;
  readonly like?: RegExp;
  readonly code?: ProblemCode;
  readonly message: string;
  readonly hint: string;
  /** True where the rest of the file still means what it seems to mean. */
  readonly harmless?: true;
  /** True where something was opened further up and is not closed. */
  readonly unclosed?: true;
}

const quoteIt = 'put the whole text in quotes if the character belongs to it';

/** What the parser finds wrong, in our own words; the first that fits speaks. */
const wordings: readonly Wording[] = [
  {
    of: 'TAB_AS_INDENT',
    message: 'a tab is used to indent this line',
    hint: 'indent with spaces',
    harmless: true,
  },
  {
    of: 'BAD_INDENT',
    like: /flow|end with a/iu,
    message: 'a bracket is not closed before the next line begins',
    hint: 'close it with ] or }',
    unclosed: true,
  },
  {
    of: 'BAD_INDENT',
    message: 'this line does not line up with those around it',
    hint: 'indent it like its neighbours',
  },
  {
    of: 'MISSING_CHAR',
    like: /closing .quote/u,
    message: 'a quote is not closed',
    hint: 'close it with the same quote',
    unclosed: true,
  },
  {
    of: 'MISSING_CHAR',
    like: /end with a/u,
    message: 'a bracket is not closed',
    hint: 'close it with ] or }',
    unclosed: true,
  },
  {
    of: 'MISSING_CHAR',
    like: /^Missing , (?:between|or :)/u,
    message: 'a comma is missing before this',
    hint: 'put commas between the entries in brackets',
  },
  {
    of: 'MISSING_CHAR',
    like: /space after :/u,
    message: 'a space is missing after the colon',
    hint: 'write key: value',
  },
  {
    of: 'MISSING_CHAR',
    like: /followed by map values/u,
    message: 'a colon is missing after this',
    hint: 'write key: value',
  },
  {
    of: 'MISSING_CHAR',
    like: /Comments must/u,
    message: 'a comment begins right after a value',
    hint: 'put a space before the #, or the text in quotes',
    harmless: true,
  },
  {
    of: 'MISSING_CHAR',
    like: /without - indicator/u,
    message: 'a dash is missing at the start of this line',
    hint: 'begin each entry of the list with "- "',
  },
  {
    of: 'BLOCK_AS_IMPLICIT_KEY',
    like: /Nested mappings/u,
    message: 'there is a second colon on this line',
    hint: 'put the text in quotes if the colon belongs to it, else begin a new line',
  },
  {
    of: 'BLOCK_AS_IMPLICIT_KEY',
    message: 'a list stands where a key is wanted',
    hint: 'check the colon and the indentation',
  },
  {
    of: 'KEY_OVER_1024_CHARS',
    message: 'a key is longer than 1024 characters',
    hint: 'a quote or a line break is missing above',
  },
  {
    of: 'MULTILINE_IMPLICIT_KEY',
    message: 'there is no key with a colon on this line',
    hint: 'write key: value, with a space after the colon',
  },
  {
    of: 'BAD_SCALAR_START',
    message: 'a text cannot begin with this character',
    hint: quoteIt,
  },
  {
    of: 'BAD_DQ_ESCAPE',
    message: 'a backslash in double quotes stands before a character that it does not change',
    hint: 'write \\\\ for a backslash, or use single quotes',
    harmless: true,
  },
  {
    of: 'BLOCK_IN_FLOW',
    message: 'a comma or a bracket is missing here',
    hint: 'put a comma between the entries, and close each bracket',
  },
  {
    of: 'UNEXPECTED_TOKEN',
    like: /empty item|Unexpected ,/u,
    message: 'a comma has nothing before it',
    hint: 'remove it, or write what is missing',
  },
  {
    of: 'UNEXPECTED_TOKEN',
    like: /block-seq-ind/u,
    message: 'a list cannot begin on the line of its key',
    hint: 'begin it on the next line, or write [a, b]',
  },
  {
    of: 'UNEXPECTED_TOKEN',
    like: /at node end/u,
    message: 'this cannot follow the value before it',
    hint: 'put the whole value in double quotes, or check the indentation',
  },
  {
    of: 'UNEXPECTED_TOKEN',
    like: /Block scalar header|Not a YAML token/u,
    message: 'there is text right after the | or >',
    hint: 'begin the text on the next line, or put it in quotes',
  },
  {
    of: 'UNEXPECTED_TOKEN',
    like: /flow-(?:seq|map)-end/u,
    message: 'a bracket is closed that was not opened',
    hint: 'remove it, or open it further up',
  },
  {
    of: 'TAG_RESOLVE_FAILED',
    code: 'tag',
    message: 'tags (!) are not allowed',
    hint: quoteIt,
    harmless: true,
  },
  {
    of: 'BAD_COLLECTION_TYPE',
    code: 'tag',
    message: 'tags (!) are not allowed',
    hint: quoteIt,
    harmless: true,
  },
  { of: 'MULTIPLE_TAGS', code: 'tag', message: 'tags (!) are not allowed', hint: quoteIt, harmless: true },
  {
    of: 'BAD_ALIAS',
    code: 'anchor-or-alias',
    message: 'anchors and aliases (& and *) are not allowed',
    hint: quoteIt,
    harmless: true,
  },
  {
    of: 'ALIAS_PROPS',
    code: 'anchor-or-alias',
    message: 'anchors and aliases (& and *) are not allowed',
    hint: quoteIt,
    harmless: true,
  },
  {
    of: 'MULTIPLE_ANCHORS',
    code: 'anchor-or-alias',
    message: 'anchors and aliases (& and *) are not allowed',
    hint: quoteIt,
    harmless: true,
  },
];

const fallback: Wording = {
  of: '',
  message: 'this is not YAML from here on',
  hint: 'check brackets, quotes, colons and indentation here and on the line above',
};

/** A key that has a value on its own line and another below it. */
export const wrongIndent: Wording = {
  of: '',
  message: 'this has a value and further lines below it',
  hint: 'line the next line up with its neighbours, or remove the value',
};

/** What one of the parser's errors means, in our own words. */
export const syntaxWording = ({ code, message }: YAMLParseError): Wording =>
  wordings.find(({ of, like }) => of === code && (like === undefined || like.test(message))) ?? fallback;
