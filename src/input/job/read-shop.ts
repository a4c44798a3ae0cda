import { type AccessTerms, type Equipment, type ShopTerms, usualTerms } from '../../core/job.ts';
import type { FailLevel } from '../../core/level.ts';
import type { UnitName } from '../../core/readings/units.ts';
import { isZone } from '../../time/zones.ts';
import { locate, type Problem, speakingOrder } from '../problem.ts';
import { quoted } from '../quoted.ts';
import { schemaFlaws } from '../schema/schema-check.ts';
import { makeSink, type Sink } from '../sink.ts';
import { readYaml } from '../yaml/read-yaml.ts';
import { get, itemsOf, type Node, numberOf, textOf } from '../yaml/tree.ts';
import type { PackRef } from './pack-ref.ts';
import { parseRate } from './read-costs.ts';
import { after, zoneHint } from './read-time.ts';
import type { Shop } from './shop.ts';

const texts = (node: Node | undefined): string[] =>
  itemsOf(node)
    .map(textOf)
    .filter((text) => text !== undefined);

export interface ReadShop {
  /** Null exactly where there are problems. */
  readonly shop: Shop | null;
  readonly problems: readonly Problem[];
  /** The packs and the rule folders that it names, with their places. */
  readonly packRefs: readonly PackRef[];
  readonly ruleRefs: readonly PackRef[];
}

const refs = (node: Node | undefined): PackRef[] =>
  itemsOf(node).flatMap((item) => {
    const ref = textOf(item);
    return ref === undefined || ref === '' ? [] : [{ ref, at: item.start }];
  });

/** Checks what a schema cannot: the zone, the labour rate, and how long access lasts. */
const checkShop = (root: Node, sink: Sink): void => {
  const of = (node: Node | undefined, key: string): { node: Node; text: string } | null => {
    const value = get(node, key);
    const text = textOf(value);
    return value && text !== undefined ? { node: value, text } : null;
  };
  const zone = of(root, 'zone');
  if (zone && !isZone(zone.text)) {
    sink.add('unknown-zone', zone.node, `${quoted(zone.text)} is not a time zone`, zoneHint(zone.text));
  }
  const rate = of(root, 'labour-rate');
  if (rate && parseRate(rate.text) === null) {
    sink.add(
      'wrong-value',
      rate.node,
      `${quoted(rate.text)} is not an amount an hour`,
      'write it like 85 / h',
    );
  }
  for (const item of itemsOf(get(root, 'equipment'))) {
    const lasts = of(get(item, 'access'), 'lasts');
    if (lasts && after(0, lasts.text, 'UTC') === null) {
      sink.add(
        'bad-time',
        lasts.node,
        `${quoted(lasts.text)} is not a duration`,
        'write it like P7D (seven days)',
      );
    }
  }
};

const readAccess = (node: Node | undefined): AccessTerms | null =>
  node ? { amount: numberOf(get(node, 'amount')) ?? 0, lasts: textOf(get(node, 'lasts')) ?? null } : null;

/** What the shop's equipment can do, from the list of a shop file or of a proof. */
export const readEquipment = (node: Node): Equipment[] =>
  itemsOf(node).map((item) => ({
    name: textOf(get(item, 'name')) ?? '',
    does: texts(get(item, 'does')),
    access: readAccess(get(item, 'access')),
  }));

/** What a shop allows without asking. */
const readTerms = (root: Node): ShopTerms => {
  const standing = get(root, 'standing-authority');
  return {
    orderHold: numberOf(get(root, 'order-hold')) ?? usualTerms.orderHold,
    tolerance: numberOf(get(root, 'tolerance')) ?? usualTerms.tolerance,
    downtime: numberOf(get(root, 'downtime')),
    standing: standing
      ? { by: textOf(get(standing, 'by')) ?? '', upTo: numberOf(get(standing, 'up-to')) ?? 0 }
      : null,
  };
};

/** Reads a shop file. Its problems carry its name, since the user named another file. */
export const readShop = (text: string, file: string): ReadShop => {
  const { root, flaws } = readYaml(text);
  const sink = makeSink();
  const { first, last } = speakingOrder(flaws);
  sink.addAll(first);
  if (root) {
    checkShop(root, sink);
    sink.addAll(last);
    sink.addAll(schemaFlaws('shop', root));
  }
  const problems = locate(text, sink.flaws, file);
  if (problems.length > 0 || !root) return { shop: null, problems, packRefs: [], ruleRefs: [] };
  const units = get(root, 'units');
  const equipment = get(root, 'equipment');
  return {
    problems,
    packRefs: refs(get(root, 'packs')),
    ruleRefs: refs(get(root, 'rules')),
    shop: {
      rules: texts(get(root, 'rules')),
      packs: get(root, 'packs') ? texts(get(root, 'packs')) : null,
      zone: textOf(get(root, 'zone')) ?? null,
      pressureUnit: (textOf(get(units, 'pressure')) ?? null) as UnitName | null,
      temperatureUnit: (textOf(get(units, 'temperature')) ?? null) as UnitName | null,
      labourRate: parseRate(textOf(get(root, 'labour-rate')) ?? ''),
      currency: textOf(get(root, 'currency')) ?? null,
      failOn: (textOf(get(root, 'fail-on')) ?? null) as FailLevel | null,
      equipment: equipment ? readEquipment(equipment) : null,
      terms: readTerms(root),
    },
  };
};
