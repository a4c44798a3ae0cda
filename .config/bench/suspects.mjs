// Judges the simulated fleet with the program's own sources.
import { runBundled } from './run-bundled.mjs';

await runBundled('suspects/main.ts');
