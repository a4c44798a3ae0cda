import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import ts from 'typescript';
import { typeOf } from './types-of-schema.mjs';

/** Writes the TypeScript of the machine output, made from its schema, for the sources of the public surface. */
export const outputTypes = async (schema, folder) => {
  await mkdir(join(folder, 'generated'), { recursive: true });
  await writeFile(
    join(folder, 'generated/output.ts'),
    `/** The document that \`check --format json\` prints. */\nexport interface Output ${typeOf(schema)}\n`,
  );
};

/** Lines that tie the parts together; in one file they have nothing to do. */
const ties = /^(?:import|export) (?:type )?(?:\*|\{[^}]*\}) ?from '\.\/[^']+';\n/gmu;

/**
 * Writes the declarations of the public surface as one file. They name nothing that does not ship: where a type of the
 * inside gets among them, the build fails.
 */
export const publicTypes = async (folder, file) => {
  const parts = [];
  for (const name of ['generated/output.ts', 'types.ts', 'index.ts']) {
    const source = await readFile(join(folder, name), 'utf8');
    const { outputText, diagnostics = [] } = ts.transpileDeclaration(source, {
      fileName: name,
      reportDiagnostics: true,
      compilerOptions: { isolatedDeclarations: true, target: ts.ScriptTarget.ES2023 },
    });
    const [wrong] = diagnostics;
    if (wrong) throw new Error(`${name}: ${ts.flattenDiagnosticMessageText(wrong.messageText, '\n')}`);
    parts.push(outputText.replace(ties, ''));
  }
  const text = parts.join('\n');
  const left = /^.*\bfrom '.*$|import\(.*$/mu.exec(text);
  if (left) throw new Error(`the public types name what does not ship: ${left[0]}`);
  await writeFile(file, text);
};
