import type { Equipment } from '../core/job.ts';
import type { FailLevel } from '../core/level.ts';
import type { UnitName } from '../core/readings/units.ts';
import { locate, type Problem } from './problem.ts';
import { parseRate } from './read-costs.ts';
import { isZone } from './read-time.ts';
import { readYaml } from './read-yaml.ts';
import { schemaFlaws } from './schema-check.ts';
import { makeSink } from './sink.ts';
import { get, itemsOf, textOf } from './tree.ts';

/** What a shop file says; all of it is optional. */
export interface Shop {
  readonly rules: readonly string[];
  readonly packs: readonly string[] | null;
  readonly zone: string | null;
  readonly pressureUnit: UnitName | null;
  readonly temperatureUnit: UnitName | null;
  readonly labourRate: number | null;
  readonly currency: string | null;
  readonly failOn: FailLevel | null;
  readonly equipment: readonly Equipment[] | null;
}

const texts = (node: ReturnType<typeof get>): string[] =>
  itemsOf(node)
    .map(textOf)
    .filter((text) => text !== undefined);

/** Reads a shop file; its problems bear its name, since it was not the file that was asked for. */
export const readShop = (
  text: string,
  file: string,
): { readonly shop: Shop | null; readonly problems: readonly Problem[] } => {
  const { root, flaws } = readYaml(text);
  const sink = makeSink();
  if (root) {
    const zone = textOf(get(root, 'zone'));
    const at = get(root, 'zone');
    if (zone !== undefined && at && !isZone(zone)) {
      sink.add('unknown-zone', at, `"${zone}" is not a time zone`, 'name one such as Europe/Dublin');
    }
    sink.addAll(schemaFlaws('shop', root));
  }
  sink.addAll(flaws);
  const problems = locate(text, sink.flaws, file);
  if (problems.length > 0 || !root) return { shop: null, problems };
  const units = get(root, 'units');
  const equipment = get(root, 'equipment');
  return {
    problems,
    shop: {
      rules: texts(get(root, 'rules')),
      packs: get(root, 'packs') ? texts(get(root, 'packs')) : null,
      zone: textOf(get(root, 'zone')) ?? null,
      pressureUnit: (textOf(get(units, 'pressure')) ?? null) as UnitName | null,
      temperatureUnit: (textOf(get(units, 'temperature')) ?? null) as UnitName | null,
      labourRate: parseRate(textOf(get(root, 'labour-rate')) ?? ''),
      currency: textOf(get(root, 'currency')) ?? null,
      failOn: (textOf(get(root, 'fail-on')) ?? null) as FailLevel | null,
      equipment: equipment
        ? itemsOf(equipment).map((item) => ({
            name: textOf(get(item, 'name')) ?? '',
            does: texts(get(item, 'does')),
            paidAccess: get(item, 'access') !== undefined,
          }))
        : null,
    },
  };
};
