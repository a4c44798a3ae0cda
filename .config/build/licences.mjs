import { readdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';

/** Files of packages from which something got into what a build wrote. */
export const bundledFiles = ({ outputs }) =>
  Object.values(outputs).flatMap(({ inputs }) =>
    Object.entries(inputs)
      .filter(([path, { bytesInOutput }]) => bytesInOutput > 0 && path.includes('node_modules/'))
      .map(([path]) => path),
  );

/** The folder of the package that a file belongs to. */
const packageOf = (path) => /^.*node_modules\/(?:@[^/]+\/)?[^/]+/u.exec(path)?.[0];

const textOf = async (folder) => {
  const name = (await readdir(folder)).find((file) => /^licen[cs]e/iu.test(file));
  if (name === undefined) throw new Error(`${folder} has no licence text to ship`);
  return (await readFile(join(folder, name), 'utf8')).trim();
};

/**
 * Writes the licence texts of all packages that are bundled.
 *
 * @param paths files of packages, from the folder of the project
 */
export const writeLicences = async (paths, root, file) => {
  const folders = [...new Set(paths.map(packageOf))].sort();
  const parts = [];
  for (const folder of folders) {
    const { name, version, license } = JSON.parse(await readFile(join(root, folder, 'package.json'), 'utf8'));
    parts.push(`${name} ${version} (${license})\n\n${await textOf(join(root, folder))}\n`);
  }
  const head = 'The program holds code of these packages, under the licences that follow.\n';
  await writeFile(file, [head, ...parts].join(`\n${'-'.repeat(80)}\n\n`));
};
