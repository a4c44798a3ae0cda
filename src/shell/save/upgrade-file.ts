import { basename, dirname, resolve } from 'node:path';
import { insertionsFor } from '../../input/edit/change.ts';
import { insert } from '../../input/edit/insertion.ts';
import { saysAsIntended } from '../../input/edit/verify.ts';
import { readShop } from '../../input/job/read-shop.ts';
import { splitRef } from '../../input/pack/pick-version.ts';
import { type LocatedFlaw, locate, type Problem } from '../../input/problem.ts';
import { planUpgrade, type Upgraded } from '../../input/upgrade/plan-upgrade.ts';
import { decode } from '../../input/yaml/decode.ts';
import { readYaml } from '../../input/yaml/read-yaml.ts';
import { get, itemsOf, type Node, textOf } from '../../input/yaml/tree.ts';
import { behindLinks } from '../disk/on-disk.ts';
import { isStdin } from '../disk/read-stdin.ts';
import { writablePath } from '../disk/writable-path.ts';
import { jobSource } from '../job-source.ts';
import { type Library, newestPacks } from '../library.ts';
import { shippedRules } from '../package-folder.ts';
import { readFailure } from '../read-failure.ts';
import { readJobText } from '../read-job-text.ts';
import { resolvePacks } from '../resolve-packs.ts';
import { type FoundShop, shopFileName, shopFor } from '../shop-file.ts';
import {
  type Changing,
  encode,
  lockFor,
  type Outcome,
  type Reading,
  trouble,
  writeTrouble,
} from './change-job.ts';
import { historyOf, putOnRecord } from './on-record.ts';

/** What became of an upgrade. */
export type UpgradeOutcome =
  | {
      readonly kind: 'upgraded';
      /** Empty where the file names the newest packs already. */
      readonly upgraded: readonly (Upgraded & { readonly line: number })[];
      readonly onRecord: boolean;
    }
  | Exclude<Outcome, { kind: 'changed' }>;

/** A file whose packs are to be upgraded, and what it is read against. */
interface OpenFile {
  readonly bytes: Uint8Array;
  readonly text: string;
  readonly root: Node;
  readonly library: Library;
  /** The packs in force where the file names none. */
  readonly inForce: readonly string[];
  /** What is wrong with a text that may take the file's place. */
  readonly problemsOf: (text: string) => Promise<readonly Problem[]>;
}

const shopProblems =
  (library: Library) =>
  async (text: string): Promise<readonly Problem[]> => {
    const { problems, packRefs } = readShop(text, shopFileName);
    const resolved = await resolvePacks(packRefs, library);
    return [...problems, ...locate(text, resolved.flaws), ...resolved.problems];
  };

const isShopFile = (path: string, root: Node): boolean =>
  basename(path) === shopFileName ||
  (get(root, 'worksheet') === undefined && get(root, 'vehicle') === undefined);

const libraryOf = (found: FoundShop, { rules, io, libraries }: Reading): Library =>
  libraries([...rules.map((folder) => resolve(io.cwd, folder)), ...found.folders, shippedRules()]);

const open = async (
  file: string,
  path: string,
  reading: Reading,
): Promise<OpenFile | { readonly problems: readonly Problem[] }> => {
  let bytes: Uint8Array;
  try {
    bytes = await reading.io.readFile(path);
  } catch (error) {
    return { problems: [readFailure(error, file)] };
  }
  const decoded = decode(bytes);
  if ('problem' in decoded) return { problems: [decoded.problem] };
  const { text } = decoded;
  const { root, flaws } = readYaml(text);
  if (root === null) return { problems: locate(text, flaws) };
  const found = await shopFor(dirname(path), reading.io);
  const library = libraryOf(found, reading);
  const shop = isShopFile(path, root);
  // What is wrong with a shop file is said of it where it is the file that was named.
  if (!shop && found.problems.length > 0) return { problems: found.problems };
  return {
    bytes,
    text,
    root,
    library,
    inForce: shop ? [] : found.packs.map(({ ref }) => ref),
    problemsOf: shop
      ? shopProblems(library)
      : async (own) =>
          (await readJobText(own, found, library, jobSource(path, reading.io, reading.asOf))).problems,
  };
};

/** What is wrong inside the newest versions of the packs that a file names: what they hold nobody can tell then. */
const packProblems = async (root: Node, library: Library): Promise<readonly Problem[]> => {
  const shelves = await library.shelves();
  const newest = itemsOf(get(root, 'packs')).map((node) => shelves.get(splitRef(textOf(node) ?? '').id)?.[0]);
  const loaded = await Promise.all(newest.map((shelf) => (shelf ? library.load(shelf) : null)));
  return loaded.flatMap((one) => one?.problems ?? []);
};

const problemsAt = (text: string, flaws: readonly LocatedFlaw[]): UpgradeOutcome => ({
  kind: 'problems',
  problems: locate(text, flaws),
  shop: null,
});

/** One try; null where another program wrote to the file in between. */
const attempt = async (
  file: string,
  path: string,
  dryRun: boolean,
  reading: Changing,
): Promise<UpgradeOutcome | null> => {
  const lock = dryRun ? null : await lockFor(file, path, reading.io);
  try {
    const opened = await open(file, path, reading);
    if ('problems' in opened) return { kind: 'problems', problems: opened.problems, shop: null };
    const { text, root, library, inForce, problemsOf } = opened;
    const wrongPacks = await packProblems(root, library);
    if (wrongPacks.length > 0) return { kind: 'problems', problems: wrongPacks, shop: null };
    const { change, upgraded, unmapped } = planUpgrade(root, await newestPacks(library), inForce);
    if (unmapped.length > 0) return problemsAt(text, unmapped);
    const lineOf = (at: number): number => text.slice(0, at).split('\n').length;
    const lines = upgraded.map((one) => ({ ...one, line: lineOf(one.at) }));
    if (change === null) return { kind: 'upgraded', upgraded: lines, onRecord: true };
    const insertions = insertionsFor(text, root, change);
    const newText = insertions && insert(text, insertions);
    const after = newText === null ? null : readYaml(newText).root;
    if (newText === null || after === null || !saysAsIntended(root, change, after)) {
      const message = 'this file is laid out in a way in which its packs cannot be changed safely';
      return trouble(message, 'change them in an editor; nothing was written');
    }
    // An upgrade may mend a file, but it leaves nothing wrong behind that was not wrong before.
    const before = new Set((await problemsOf(text)).map(({ code, message }) => `${code} ${message}`));
    const left = (await problemsOf(newText)).filter(({ code, message }) => !before.has(`${code} ${message}`));
    if (left.length > 0) return { kind: 'problems', problems: left, shop: null };
    if (lock === null) return { kind: 'upgraded', upgraded: lines, onRecord: true };
    const { io, by } = reading;
    const history = historyOf(path, opened.bytes, io);
    const cause = { by, what: 'packs upgrade', as: null };
    const stored = await putOnRecord(path, history, encode(newText, opened.bytes), cause, lock, io);
    return stored && { kind: 'upgraded', upgraded: lines, onRecord: stored.onRecord };
  } finally {
    await lock?.release();
  }
};

/** Times that an upgrade is planned anew because another program wrote to the file in between. */
const mostTries = 5;

/**
 * Brings a job or shop file to the newest packs: its text is changed in those places only, what it says then is
 * checked, and the file is replaced whole.
 *
 * @param dryRun true where nothing is to be written
 */
export const upgradeFile = async (
  file: string,
  dryRun: boolean,
  reading: Changing,
): Promise<UpgradeOutcome> => {
  if (isStdin(file)) return trouble('standard input cannot be written back', 'name the file');
  try {
    const named = resolve(reading.io.cwd, file);
    const path = dryRun ? behindLinks(named) : await writablePath(named);
    for (let tries = 0; tries < mostTries; tries += 1) {
      const outcome = await attempt(file, path, dryRun, reading);
      if (outcome !== null) return outcome;
    }
    return trouble(
      `${file} was changed by another program again and again; nothing was written`,
      'try again',
    );
  } catch (error) {
    return writeTrouble(error, file) as UpgradeOutcome;
  }
};
