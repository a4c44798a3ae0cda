import { parseDocument } from 'yaml';
import { findTooDeep } from './depth.ts';
import type { LocatedFlaw } from './problem.ts';
import type { Node } from './tree.ts';
import { toTree } from './yaml-tree.ts';

export interface YamlFile {
  /** Null where nothing could be made of the text. */
  readonly root: Node | null;
  readonly flaws: readonly LocatedFlaw[];
}

const syntaxHint: Readonly<Record<string, string>> = {
  MULTIPLE_DOCS: 'keep one job a file; take out the "---" line and what follows it',
  TAB_AS_INDENT: 'indent with spaces',
  BAD_INDENT: 'line it up with its neighbours',
  MISSING_CHAR: 'close the bracket or quote, or add the missing colon',
  BLOCK_AS_IMPLICIT_KEY: 'check the colon and the indentation',
  KEY_OVER_1024_CHARS: 'check for a missing quote or line break above',
  MULTILINE_IMPLICIT_KEY: 'a quote or bracket further up may not be closed',
  UNEXPECTED_TOKEN: 'check brackets, quotes and commas on this line',
};

const syntaxFlaw = (code: string, at: number, message: string): LocatedFlaw => {
  const several = code === 'MULTIPLE_DOCS';
  return {
    code: several ? 'several-documents' : 'yaml-syntax',
    at,
    message: several ? 'a second document begins here' : message.replace(/\s+at line \d+.*$/su, ''),
    hint: syntaxHint[code] ?? 'check brackets, quotes and indentation on this line',
  };
};

const parse = (text: string): YamlFile => {
  const document = parseDocument(text, {
    version: '1.2',
    schema: 'core',
    prettyErrors: false,
    // Our own walk finds duplicates in linear time and says where the first one stands.
    uniqueKeys: false,
    logLevel: 'silent',
  });
  const unresolved = document.warnings.filter(({ code }) => code !== 'TAG_RESOLVE_FAILED');
  const syntax = [...document.errors, ...unresolved].map(({ code, pos, message }) =>
    syntaxFlaw(code, pos[0], message),
  );
  if (!document.contents) return { root: null, flaws: syntax };
  const { root, flaws } = toTree(document.contents, text);
  return { root, flaws: [...syntax, ...flaws] };
};

/** YAML 1.2 text to a tree, collecting every flaw. Never throws for what stands in the text. */
export const readYaml = (text: string): YamlFile => {
  try {
    const tooDeep = findTooDeep(text);
    return tooDeep ? { root: null, flaws: [tooDeep] } : parse(text);
  } catch (error) {
    // The parser recurses over runs of empty lines; a text made of nothing else can exhaust the stack.
    if (!(error instanceof RangeError)) throw error;
    const hint = 'look for thousands of empty lines or brackets';
    return {
      root: null,
      flaws: [{ code: 'yaml-syntax', at: 0, message: 'this text is too tangled to be read', hint }],
    };
  }
};
