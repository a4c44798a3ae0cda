import type { Pack, Rename } from '../../core/pack.ts';
import type { Change } from '../edit/change.ts';
import { text } from '../edit/value.ts';
import type { Way } from '../edit/way.ts';
import { isRange, isVersion, newestIn, splitRef } from '../pack/pick-version.ts';
import type { LocatedFlaw } from '../problem.ts';
import { quoted } from '../quoted.ts';
import { didYouMean } from '../suggest.ts';
import { get, itemsOf, type Node, textOf } from '../yaml/tree.ts';

/** One text of a file that is written anew, or a pack that is added; `was` is null for what is added. */
export interface Upgraded {
  readonly was: string | null;
  readonly is: string;
  /** Offset in the file. */
  readonly at: number;
  /** The version under which a waiver accepted its check; null for everything else. */
  readonly acceptedUnder: string | null;
}

export interface UpgradePlan {
  /** Null where nothing is to be changed. */
  readonly change: Change | null;
  readonly upgraded: readonly Upgraded[];
  /** What has no counterpart in the newest packs. */
  readonly unmapped: readonly LocatedFlaw[];
}

const majorOf = (version: string): string => version.split('.')[0] ?? '';

/** A reference that takes the newest version: an exact one stays exact, any other range becomes a major. */
const newRef = (ref: string, { id, version }: Pack): string => {
  const { range } = splitRef(ref);
  if (isRange(range) && newestIn(range, [version]) !== null) return ref;
  return `${id}@${isVersion(range) ? version : majorOf(version)}`;
};

/** The newest name of a check, one rename after the other; null where they lead nowhere. */
const renamed = (check: string, renames: readonly Rename[], known: ReadonlySet<string>): string | null => {
  let name = check;
  for (let steps = 0; steps <= renames.length; steps += 1) {
    if (known.has(name)) return name;
    const next = renames.find(({ from }) => from === name);
    if (next === undefined) return null;
    name = next.to;
  }
  return null;
};

interface Place {
  readonly way: Way;
  readonly node: Node;
  readonly text: string;
}

const placesIn = (root: Node, list: Way, key: string): Place[] => {
  let node: Node | undefined = root;
  for (const part of list) node = get(node, String(part));
  return itemsOf(node).flatMap((item, index) => {
    const own = get(item, key);
    const typed = textOf(own);
    return own && typed !== undefined ? [{ way: [...list, index, key], node: own, text: typed }] : [];
  });
};

const underOf = (root: Node, { way }: Place): string | null => {
  const [list, index] = way;
  return list === 'waivers'
    ? (textOf(get(itemsOf(get(root, 'waivers'))[Number(index)], 'under')) ?? null)
    : null;
};

/** The references to packs that are changed, the ids of all of them, and those that nobody knows. */
const upgradeRefs = (list: Node | undefined, byId: ReadonlyMap<string, Pack>) => {
  const replaced: (Place & { readonly is: string })[] = [];
  const unmapped: LocatedFlaw[] = [];
  const used = new Set<string>();
  for (const [index, node] of itemsOf(list).entries()) {
    const ref = textOf(node) ?? '';
    const { id } = splitRef(ref);
    used.add(id);
    const pack = byId.get(id);
    if (!pack) {
      unmapped.push({
        code: 'unknown-pack',
        at: node.start,
        message: `no pack is called ${quoted(id)}`,
        hint: didYouMean(id, [...byId.keys()], 'name its rule folder with --rules'),
      });
    } else if (newRef(ref, pack) !== ref) {
      replaced.push({ way: ['packs', index], node, text: ref, is: newRef(ref, pack) });
    }
  }
  return { replaced, unmapped, used };
};

const noCheck = (place: Place, check: string, known: ReadonlySet<string>): LocatedFlaw => ({
  code: 'unknown-name',
  at: place.node.start,
  message: `the newest packs have no check ${quoted(check)}, and none takes its place`,
  hint: didYouMean(check, [...known], 'name the check that is meant now, or take this entry out'),
});

/**
 * What it takes to bring a job or shop file to the newest packs: the ranges of its packs, the checks that its waivers
 * and its service data name, and packs that checks have moved to.
 *
 * @param newest every pack there is, in its newest version
 * @param inForce the packs that the job uses where it names none itself
 */
export const planUpgrade = (
  root: Node,
  newest: readonly Pack[],
  inForce: readonly string[] = [],
): UpgradePlan => {
  const byId = new Map(newest.map((pack) => [pack.id, pack]));
  const renames = newest.flatMap((pack) => pack.renames);
  const known = new Set(newest.flatMap(({ checks }) => checks).map(({ id }) => id));
  const list = get(root, 'packs');
  const { replaced, unmapped, used } = upgradeRefs(list, byId);
  if (list === undefined) for (const ref of inForce) used.add(splitRef(ref).id);
  const refOf = (id: string): string => `${id}@${majorOf(byId.get(id)?.version ?? '')}`;

  const added = new Set<string>();
  const named = [
    ...placesIn(root, ['waivers'], 'finding'),
    ...placesIn(root, ['vehicle', 'service-data'], 'check'),
  ];
  for (const place of named) {
    const [check = '', ...subject] = place.text.split(':');
    const now = renamed(check, renames, known);
    if (now === null) {
      unmapped.push(noCheck(place, check, known));
      continue;
    }
    const pack = now.split('/')[0] ?? '';
    if (!used.has(pack) && list === undefined) {
      const message = `${check} is ${now} now, and the shop file does not name ${pack}`;
      const hint = `add ${refOf(pack)} to the packs of the shop file`;
      unmapped.push({ code: 'unknown-pack', at: place.node.start, message, hint });
      continue;
    }
    if (!used.has(pack)) added.add(pack);
    if (now !== check) replaced.push({ ...place, is: [now, ...subject].join(':') });
  }
  const refs = [...added].map(refOf);
  const changes: Change[] = replaced.map(({ way, is }) => ({ kind: 'replace', at: way, text: is }));
  if (refs.length > 0) changes.push({ kind: 'append', to: ['packs'], items: refs.map(text) });
  return {
    change: changes.length === 0 ? null : { kind: 'several', changes },
    upgraded: [
      ...replaced.map((place) => ({
        was: place.text,
        is: place.is,
        at: place.node.start,
        acceptedUnder: underOf(root, place),
      })),
      ...refs.map((is) => ({ was: null, is, at: list?.start ?? 0, acceptedUnder: null })),
    ],
    unmapped,
  };
};
