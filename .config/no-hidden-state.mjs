// Refuses what would give pure code a memory or surroundings, and what no linter rule here finds.
// Usage: node .config/no-hidden-state.mjs FOLDER...
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { hiddenState } from './hidden-state.mjs';

const faults = process.argv.slice(2).flatMap((folder) =>
  readdirSync(folder, { recursive: true })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => join(folder, name))
    .flatMap((file) => hiddenState(file).map(({ line, message }) => `${file}:${line}: ${message}`)),
);
for (const fault of faults) console.error(fault);
process.exitCode = faults.length === 0 ? 0 : 1;
