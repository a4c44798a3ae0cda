// What reading some files costs at the least: `node yardstick.mjs read|hash|yaml|json FOLDER`.
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

const [, , what, folder] = process.argv;
const names = readdirSync(folder, { recursive: true }).filter((name) => /\.(?:yaml|json)$/u.test(name));
const files = names.map((name) => join(folder, name));
if (what === 'yaml') {
  const { parse } = await import('yaml');
  for (const file of files) parse(readFileSync(file, 'utf8'));
} else if (what === 'json') {
  for (const file of files) JSON.parse(readFileSync(file, 'utf8'));
} else {
  for (const file of files) {
    const bytes = readFileSync(file);
    if (what === 'hash') createHash('sha256').update(bytes).digest('base64url');
  }
}
