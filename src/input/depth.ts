import { CST, Lexer } from 'yaml';
import type { LocatedFlaw } from './problem.ts';

/** Deeper than any job or pack, and far from what a recursive composer can bear. */
export const deepest = 64;

type TokenType = ReturnType<typeof CST.tokenType> | 'plain';

interface Token {
  readonly type: TokenType;
  readonly offset: number;
  readonly column: number;
  /** Whether a scalar stands before it on its line: then a colon after it opens nothing. */
  readonly afterScalar: boolean;
}

const isScalar = (type: TokenType): boolean =>
  type === 'plain' || type === 'double-quoted-scalar' || type === 'single-quoted-scalar';

/** The lexer's tokens with their places; those that stand for no character are left out. */
function* tokens(text: string): Generator<Token> {
  let offset = 0;
  let lineStart = 0;
  let announced = false;
  let afterScalar = false;
  for (const source of new Lexer().lex(text)) {
    // A plain scalar is announced by a token of its own.
    const type: TokenType = announced ? 'plain' : CST.tokenType(source);
    announced = type === 'scalar';
    if (type === 'scalar' || type === 'doc-mode' || type === 'flow-error-end') continue;
    yield { type, offset, column: offset - lineStart, afterScalar };
    if (isScalar(type)) afterScalar = true;
    const newline = source.lastIndexOf('\n');
    if (newline >= 0) {
      lineStart = offset + newline + 1;
      afterScalar = false;
    }
    offset += source.length;
  }
}

const opensBlock = ({ type, afterScalar }: Token): boolean =>
  type === 'seq-item-ind' ||
  type === 'explicit-key-ind' ||
  (!afterScalar && (type === 'map-value-ind' || isScalar(type)));

/**
 * The first place where a YAML text nests deeper than `deepest`, counted from its tokens before anything recursive
 * sees it. Flow brackets count one each; in block style each dash or key further to the right than the one above
 * it counts one.
 */
export const findTooDeep = (text: string): LocatedFlaw | null => {
  let flow = 0;
  const columns: number[] = [];
  for (const token of tokens(text)) {
    const { type, column, offset } = token;
    if (type === 'flow-seq-start' || type === 'flow-map-start') flow += 1;
    else if (type === 'flow-seq-end' || type === 'flow-map-end') flow = Math.max(0, flow - 1);
    else if (flow === 0 && opensBlock(token)) {
      while ((columns.at(-1) ?? -1) >= column) columns.pop();
      columns.push(column);
    }
    if (flow + columns.length > deepest) {
      return {
        code: 'too-deep',
        at: Math.min(offset, text.length),
        message: `nested more than ${deepest} levels deep`,
        hint: 'a job file needs about eight; take out the surplus brackets or dashes',
      };
    }
  }
  return null;
};
