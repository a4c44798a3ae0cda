import { type Caution, type Channel, type Component, cautionTexts } from '../../core/pack.ts';
import { parseQuantity } from '../../core/readings/parse-quantity.ts';
import { findUnit, quantityOf, type UnitName, unitsOf } from '../../core/readings/units.ts';
import { readAccuracy } from '../job/read-instruments.ts';
import { quoted } from '../quoted.ts';
import { channelQuantities } from '../schema/pack-schema.ts';
import type { Sink } from '../sink.ts';
import { didYouMean } from '../suggest.ts';
import { get, itemsOf, type Node, numberOf, textOf } from '../yaml/tree.ts';

/** The texts of a list. */
export const texts = (node: Node | undefined): string[] =>
  itemsOf(node)
    .map(textOf)
    .filter((text) => text !== undefined);

/** A thing that can fail or be worked on, once, at each corner or on each axle. */
export const readComponent = (node: Node): Component => {
  const typed = textOf(get(node, 'per'));
  const per = typed === 'corner' || typed === 'axle' || typed === 'both' ? typed : 'vehicle';
  return {
    id: textOf(get(node, 'id')) ?? '',
    per,
    perCorner: per === 'corner',
    title: textOf(get(node, 'title')) ?? '',
  };
};

/**
 * Reads the unit of a channel. A wrong unit is reported and replaced by one that fits, so that the checks of the channel
 * report nothing because of it.
 */
const readUnit = (node: Node, sink: Sink): UnitName => {
  const unitNode = get(node, 'unit');
  const text = textOf(unitNode) ?? 'V';
  const unit = findUnit(text);
  const quantity = textOf(get(node, 'quantity'));
  const kind = channelQuantities.find((one) => one === quantity);
  const right = kind ? unitsOf(kind) : [];
  if (unitNode && unit === null) {
    const hint = didYouMean(text, right, `it can be ${right.join(', ') || 'V, psi, mm and others'}`);
    sink.add('unknown-unit', unitNode, `${quoted(text)} is not a known unit`, hint);
  } else if (unitNode && unit !== null && kind && quantityOf(unit) !== kind) {
    const message = `${unit} measures ${quantityOf(unit)}, and this channel is a ${kind}`;
    sink.add('wrong-unit', unitNode, message, `it can be ${right.join(', ')}`);
  }
  return unit !== null && (!kind || right.includes(unit)) ? unit : (right[0] ?? 'V');
};

/** Reports names of cautions that the pack does not define. */
export const checkCautions = (node: Node, known: readonly string[], sink: Sink): void => {
  for (const item of itemsOf(get(node, 'cautions'))) {
    const name = textOf(item) ?? '';
    if (!known.includes(name)) {
      sink.add(
        'unknown-name',
        item,
        `this pack has no caution ${quoted(name)}`,
        didYouMean(name, known, 'write it under cautions'),
      );
    }
  }
};

/** The lowest and the highest reading that there can be. */
const readPossible = (node: Node | undefined, unit: UnitName, sink: Sink): Channel['possible'] => {
  const [low, high] = itemsOf(node).map((item) => {
    const parsed = parseQuantity(textOf(item) ?? '', unit);
    if (!parsed.ok) sink.add(parsed.fault.code, item, parsed.fault.message, parsed.fault.hint);
    return parsed.ok ? parsed.value.value : null;
  });
  if (node === undefined || low === undefined || high === undefined) return null;
  if (low !== null && high !== null && low >= high) {
    sink.add(
      'wrong-value',
      node,
      'the lowest reading is not below the highest',
      'write the smaller one first',
    );
  }
  return { low, high };
};

/** What a reading is of: its unit, its usual instrument, what it depends on. */
export const readChannel = (
  node: Node,
  components: readonly Component[],
  cautions: readonly Caution[],
  sink: Sink,
): Channel => {
  checkCautions(
    node,
    cautions.map(({ id }) => id),
    sink,
  );
  for (const item of itemsOf(get(node, 'depends'))) {
    const name = textOf(item) ?? '';
    if (!components.some(({ id }) => id === name)) {
      const hint = didYouMean(
        name,
        components.map(({ id }) => id),
        'declare it under components',
      );
      sink.add('unknown-name', item, `this pack declares no component ${quoted(name)}`, hint);
    }
  }
  const per = textOf(get(node, 'per'));
  const unit = readUnit(node, sink);
  const accuracyNode = get(node, 'accuracy');
  return {
    id: textOf(get(node, 'id')) ?? '',
    per: per === 'corner' || per === 'either' ? per : 'vehicle',
    title: textOf(get(node, 'title')) ?? '',
    unit,
    by: textOf(get(node, 'by')) ?? 'meter',
    accuracy: accuracyNode ? readAccuracy(accuracyNode, sink) : null,
    unjudged: textOf(get(node, 'unjudged')) ?? null,
    depends: texts(get(node, 'depends')),
    possible: readPossible(get(node, 'possible'), unit, sink),
    minutes: numberOf(get(node, 'minutes')) ?? 1,
    cautions: cautionTexts(texts(get(node, 'cautions')), cautions),
  };
};
