// Run as a program: node write-texts.mjs FOLDER. Writes the dearest texts that a file may hold, as large as one may be and
// about as large as one that is read to its end.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { largest } from '../../../src/input/yaml/decode.ts';
import { worstTexts } from '../../../tests/faults/worst-texts.ts';

const [, , folder = '.'] = process.argv;
for (const size of [largest, 145_000]) {
  for (const [kind, text] of worstTexts(size))
    writeFileSync(join(folder, `${kind.replaceAll(' ', '-')}-${size}.yaml`), text);
}
