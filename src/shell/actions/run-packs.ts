import { resolve } from 'node:path';
import type { Pack } from '../../core/pack.ts';
import type { Shop } from '../../input/job/shop.ts';
import { type Problem, wholeFile } from '../../input/problem.ts';
import { packList, packPage } from '../../report/packs-text.ts';
import { renderProblems } from '../../report/problems.ts';
import { makeStyle, type Style } from '../../report/style.ts';
import { type Library, type LoadedPack, openLibrary } from '../library.ts';
import { type LookFlags, reportOptions } from '../look.ts';
import { shippedRules } from '../package-folder.ts';
import { resolvePacks } from '../resolve-packs.ts';
import { exitCodes, type Shell } from '../shell.ts';
import { shopFor } from '../shop-file.ts';
import { withShownPaths } from '../shown-path.ts';

/** What the commands of `packs` are called with. */
export interface PacksFlags extends LookFlags {
  readonly rules: readonly string[];
}

/** The packs that a command of `packs` works on, and how it is to look. */
export interface OpenedPacks {
  readonly library: Library;
  readonly style: Style;
  readonly shop: Shop | null;
  readonly problems: readonly Problem[];
}

/** Opens the rule folders that apply here. */
export const openPacks = async (flags: PacksFlags, { io }: Shell): Promise<OpenedPacks> => {
  const { shop, folders, problems } = await shopFor(io.cwd, io);
  const own = flags.rules.map((rules) => resolve(io.cwd, rules));
  return {
    library: openLibrary([...own, ...folders, shippedRules()]),
    style: makeStyle(reportOptions(flags, shop, io)),
    shop,
    problems,
  };
};

/** Reports problems, if any, and whether there were some. */
export const reportProblems = (
  problems: readonly Problem[],
  style: Style,
  { io, finish }: Shell,
): boolean => {
  if (problems.length === 0) return false;
  io.stderr.write(renderProblems('packs', withShownPaths(problems, io.cwd), style));
  finish(exitCodes.wrongInput);
  return true;
};

/** Every version of every pack. */
export const loadAll = async (library: Library): Promise<LoadedPack[]> => {
  const shelves = [...(await library.shelves()).values()].flat();
  return Promise.all(shelves.map((shelf) => library.load(shelf)));
};

/** `cornerwise packs list`: every pack with its versions. */
export const listPacks = async (flags: PacksFlags, shell: Shell): Promise<void> => {
  const { library, style, problems } = await openPacks(flags, shell);
  if (reportProblems(problems, style, shell)) return;
  const loads = await loadAll(library);
  shell.io.stdout.write(
    packList(
      loads.map(({ pack }) => pack).filter((pack) => pack !== null),
      style,
    ),
  );
  reportProblems(
    loads.flatMap((load) => load.problems),
    style,
    shell,
  );
};

/** The packs that references name, or null with the problems reported. */
export const findPacks = async (
  refs: readonly string[],
  opened: OpenedPacks,
  shell: Shell,
): Promise<readonly Pack[] | null> => {
  const resolved = await resolvePacks(
    refs.map((ref) => ({ ref, at: 0 })),
    opened.library,
  );
  const problems = [
    ...resolved.flaws.map(({ code, message, hint }) => wholeFile(code, message, hint)),
    ...resolved.problems,
  ];
  return reportProblems(problems, opened.style, shell) ? null : resolved.prepared.packs;
};

/** `cornerwise packs show`: what a pack holds. */
export const showPack = async (ref: string, flags: PacksFlags, shell: Shell): Promise<void> => {
  const opened = await openPacks(flags, shell);
  if (reportProblems(opened.problems, opened.style, shell)) return;
  const packs = await findPacks([ref], opened, shell);
  if (packs) shell.io.stdout.write(packs.map((pack) => packPage(pack, opened.style)).join('\n'));
};
