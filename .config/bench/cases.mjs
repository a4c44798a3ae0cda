// Judges the written cases with the program's own sources.
import { runBundled } from './run-bundled.mjs';

await runBundled('cases/main.ts');
