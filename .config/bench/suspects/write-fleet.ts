// Writes job files of the simulated fleet into a folder, every third with a fault, beside a shop file that names the newest
// packs: `node write-fleet.mjs FOLDER COUNT RULES`.
import { readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { benchOf, textOf } from './fleet.ts';

const [, , folder = '', count = '0', rules = ''] = process.argv;
const seed = 1;

/** Numbers of the fleet whose vehicles have a fault, or none. */
function* numbersOf(faulted: boolean): Generator<number, never> {
  for (let number = 0; ; number += 1)
    if (benchOf(seed, number).member.troubles.length > 0 === faulted) yield number;
}

/** The newest major of a pack: `position-signals@2`. */
const newest = (pack: string): string => {
  const majors = readdirSync(join(rules, pack)).map((file) => Number.parseInt(file, 10));
  return `${pack}@${Math.max(...majors)}`;
};

const packs = readdirSync(rules, { withFileTypes: true })
  .filter((entry) => entry.isDirectory())
  .map(({ name }) => newest(name));
writeFileSync(
  join(folder, 'cornerwise.yaml'),
  `zone: UTC\npacks: [${packs.join(', ')}]\nlabour-rate: 85\ncurrency: EUR\n`,
);
const ill = numbersOf(true);
const well = numbersOf(false);
for (let index = 0; index < Number(count); index += 1) {
  const number = (index % 3 === 0 ? ill : well).next().value;
  // The first sessions of a morning beside vehicles that everything was read of.
  const text = textOf(seed, number, index % 2 === 0 ? 'first look' : 'full sheet');
  writeFileSync(join(folder, `f${String(index).padStart(4, '0')}.yaml`), text);
}
