// `npm run surface`: counts the modules of some folders, those of them that keep state, and the names that they export.
// Usage: node .config/count-surface.mjs FOLDER...
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import ts from 'typescript';
import { hiddenState } from './hidden-state.mjs';

const isExported = (statement) =>
  ts.canHaveModifiers(statement) &&
  (ts.getModifiers(statement) ?? []).some(({ kind }) => kind === ts.SyntaxKind.ExportKeyword);

/** How many names a statement exports; a star counts as one. */
const namesOf = (statement) => {
  if (ts.isExportDeclaration(statement)) return statement.exportClause?.elements?.length ?? 1;
  if (ts.isExportAssignment(statement)) return 1;
  if (!isExported(statement)) return 0;
  return ts.isVariableStatement(statement) ? statement.declarationList.declarations.length : 1;
};

const exportedNames = (file) => {
  const { statements } = ts.createSourceFile(file, readFileSync(file, 'utf8'), ts.ScriptTarget.Latest, true);
  return statements.reduce((sum, statement) => sum + namesOf(statement), 0);
};

/** Modules that people write: neither declarations nor what the build generates. */
const modulesIn = (folder) =>
  readdirSync(folder, { recursive: true })
    .filter((name) => name.endsWith('.ts') && !name.endsWith('.d.ts') && !name.includes('generated'))
    .sort()
    .map((name) => join(folder, name));

for (const folder of process.argv.slice(2)) {
  const files = modulesIn(folder);
  const keeping = files.filter((file) => hiddenState(file).some(({ remembers }) => remembers));
  const names = files.reduce((sum, file) => sum + exportedNames(file), 0);
  console.log(`${folder}: ${files.length} modules, ${keeping.length} with state, ${names} exported names`);
  for (const file of keeping) console.log(`  state in ${file}`);
}
