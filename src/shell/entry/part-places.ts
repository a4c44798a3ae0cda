import type { Way } from '../../input/edit/way.ts';
import { cornerMeant } from '../../input/job/corner-hint.ts';
import { codeName } from '../../input/typed/typed-code.ts';
import { cornerChannel, type Name } from '../../input/typed/typed-name.ts';
import { entriesOf, get, itemsOf, type Node, textOf } from '../../input/yaml/tree.ts';

/** Where a reading stands below `readings`, in whatever spelling. */
const readingWay = (node: Node, { channel, corner }: Extract<Name, { kind: 'reading' }>): Way | null => {
  const readings = get(node, 'readings');
  for (const { key, node: value } of entriesOf(readings)) {
    if (key === channel.id) {
      if (corner === null) return ['readings', key];
      const below = entriesOf(value).find((entry) => cornerMeant(entry.key) === corner);
      if (below) return ['readings', key, below.key];
    }
    if (corner === null) continue;
    const dot = key.lastIndexOf('.');
    const alone = dot < 0 && channel.id === cornerChannel && cornerMeant(key) === corner;
    const dotted = dot > 0 && key.slice(0, dot) === channel.id && cornerMeant(key.slice(dot + 1)) === corner;
    if (alone || dotted) return ['readings', key];
  }
  return null;
};

const codeOf = (node: Node): string =>
  codeName(textOf(get(node, 'code')) ?? textOf(node)?.split(/[:\s]/u)[0] ?? '');

/** Where a code stands in a list, or alone. */
const codeWay = (node: Node, code: string): Way | null => {
  for (const way of [['codes'], ['readings', 'codes'], ['readings', 'code']] as const) {
    const list = way.reduce<Node | undefined>((at, key) => get(at, key), node);
    const same = (one: Node): boolean => codeOf(one).toUpperCase() === code.toUpperCase();
    if (list?.kind === 'scalar' && same(list)) return [...way];
    const index = itemsOf(list).findIndex(same);
    if (index >= 0) return [...way, index];
  }
  return null;
};

/**
 * Where a snapshot says something in its file, from the snapshot on; null where it does not.
 *
 * @param node the snapshot as it stands in the file
 * @param code the code that is meant, where a code is
 */
export const placeOf = (node: Node, name: Name, code = ''): Way | null => {
  switch (name.kind) {
    case 'reading':
      return readingWay(node, name);
    case 'condition':
      for (const group of ['conditions', 'readings']) {
        if (get(get(node, group), name.name)) return [group, name.name];
      }
      return null;
    case 'lamp':
      if (get(node, 'lamp')) return ['lamp'];
      return get(get(node, 'readings'), 'lamp') ? ['readings', 'lamp'] : null;
    case 'codes':
      return codeWay(node, code);
  }
};
