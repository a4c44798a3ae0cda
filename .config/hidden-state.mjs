// Finds what gives a module a memory or surroundings.
import { readFileSync } from 'node:fs';
import ts from 'typescript';

const changing = new Set(
  'add clear copyWithin delete fill pop push reverse set shift sort splice unshift'.split(' '),
);
const weak = /^Weak(Map|Set|Ref)$/u;
const streams = /^std(in|out|err)$/u;
const byLanguage = /^(toLocale\w+|localeCompare)$/u;

const isAssignment = ({ kind }) =>
  kind >= ts.SyntaxKind.FirstAssignment && kind <= ts.SyntaxKind.LastAssignment;

/** The name at the root of `name`, `name.key` and `name[key]`, or null. */
const rootName = (node) => {
  if (ts.isIdentifier(node)) return node.text;
  return ts.isPropertyAccessExpression(node) || ts.isElementAccessExpression(node)
    ? rootName(node.expression)
    : null;
};

/** The name of what an expression changes in place, or null. */
const changed = (node) => {
  if (ts.isBinaryExpression(node) && isAssignment(node.operatorToken)) return rootName(node.left);
  if (ts.isDeleteExpression(node)) return rootName(node.expression);
  if (!ts.isCallExpression(node) || !ts.isPropertyAccessExpression(node.expression)) return null;
  const { expression: on, name } = node.expression;
  if (on.getText() === 'Object' && name.text === 'assign') return rootName(node.arguments[0]);
  return changing.has(name.text) ? rootName(on) : null;
};

const isStream = (node) =>
  ts.isPropertyAccessExpression(node) &&
  node.expression.getText() === 'process' &&
  streams.test(node.name.text);

const isCollection = (node) =>
  node !== undefined && ts.isNewExpression(node) && /^(Map|Set)$/u.test(node.expression.getText());

/**
 * Finds the state of a module: variables and changing collections at module level, weak collections, methods whose result
 * depends on the machine's language, and streams of the process past the one place that guards them.
 *
 * @returns for each, its line, what it is, and whether the module remembers something by it
 */
export const hiddenState = (file) => {
  const source = ts.createSourceFile(file, readFileSync(file, 'utf8'), ts.ScriptTarget.Latest, true);
  const faults = [];
  const tell = (node, message, remembers = true) => {
    const { line } = source.getLineAndCharacterOfPosition(node.getStart());
    faults.push({ line: line + 1, message, remembers });
  };
  const own = new Set();
  for (const statement of source.statements) {
    if (!ts.isVariableStatement(statement)) continue;
    const { declarationList } = statement;
    if (!(declarationList.flags & ts.NodeFlags.Const)) tell(statement, 'a variable at module level');
    for (const { name, type, initializer } of declarationList.declarations) {
      if (ts.isIdentifier(name)) own.add(name.text);
      if (isCollection(initializer) && !/^Readonly(Map|Set)\b/u.test(type?.getText() ?? ''))
        tell(statement, 'a collection at module level that is not typed ReadonlyMap or ReadonlySet');
    }
  }
  const visit = (node) => {
    if (ts.isIdentifier(node) && weak.test(node.text)) tell(node, 'a weak collection');
    if (ts.isPropertyAccessExpression(node) && byLanguage.test(node.name.text))
      tell(node, "a method that depends on the machine's language", false);
    if (ts.isPropertyAccessExpression(node) && node.expression.getText() === 'console')
      tell(node, 'printing past the outlets of src/shell/io.ts', false);
    if (isStream(node) && !file.endsWith('src/shell/io.ts'))
      tell(node, 'a stream of the process outside of src/shell/io.ts', false);
    const name = changed(node);
    if (name !== null && own.has(name)) tell(node, 'a change of something at module level');
    ts.forEachChild(node, visit);
  };
  visit(source);
  return faults;
};
