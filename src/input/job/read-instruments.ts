import {
  type Accuracy,
  type Instrument,
  usualInstruments,
  usualOffset,
} from '../../core/readings/instruments.ts';
import { parseQuantity } from '../../core/readings/parse-quantity.ts';
import { findUnit, quantityOf, type UnitName } from '../../core/readings/units.ts';
import { quoted } from '../quoted.ts';
import type { Sink } from '../sink.ts';
import { entriesOf, get, itemsOf, type Node, textOf } from '../yaml/tree.ts';

const unitIn = (text: string): UnitName | null => findUnit(text.replace(/^[+-]?[\d.,]+\s*/u, '').trim());

/** `0.5 % + 0.02 V`, `0.05 V`, `1 psi`; null with the flaw reported. A share alone is a share of volts. */
const readAccuracy = (node: Node, sink: Sink): Accuracy | null => {
  const parts = (textOf(node) ?? '').split('+').map((part) => part.trim());
  let gain: number | null = null;
  let fixed: { value: number; unit: UnitName } | null = null;
  for (const part of parts) {
    const unit = unitIn(part);
    const parsed = unit === null ? null : parseQuantity(part, unit);
    if (unit === null || !parsed?.ok) {
      const hint = parsed && !parsed.ok ? parsed.fault.hint : 'write it like 0.5 % + 0.02 V';
      sink.add('bad-reading', node, `${quoted(part)} is not an accuracy`, hint);
      return null;
    }
    if (unit === '%') gain = parsed.value.value / 100;
    else fixed = { value: parsed.value.value, unit };
  }
  const unit = fixed?.unit ?? 'V';
  return { quantity: quantityOf(unit), gain: gain ?? 0, fixed: fixed?.value ?? 0, unit };
};

const readShows = (node: Node | undefined, sink: Sink): Instrument['shows'] => {
  const text = textOf(node);
  if (node === undefined || text === undefined) return null;
  const unit = unitIn(text);
  const parsed = unit === null ? null : parseQuantity(text, unit);
  if (unit !== null && parsed?.ok && parsed.value.value > 0) return { value: parsed.value.value, unit };
  sink.add('bad-reading', node, `${quoted(text)} is not the last digit of a display`, 'write it like 0.01 V');
  return null;
};

/** The usual instruments, with what the job says of them in place of what is assumed, and its own beside them. */
export const readInstruments = (node: Node | undefined, sink: Sink): readonly Instrument[] => {
  if (node === undefined) return usualInstruments;
  const described = entriesOf(node).map(({ key, node: item }): Instrument => {
    const accuracyNode = get(item, 'accuracy');
    const nodes = accuracyNode?.kind === 'list' ? itemsOf(accuracyNode) : accuracyNode ? [accuracyNode] : [];
    const accuracy = nodes.map((one) => readAccuracy(one, sink)).filter((one) => one !== null);
    const usual = usualInstruments.find(({ name }) => name === key)?.accuracy ?? [];
    const kept = usual.filter(({ quantity }) => !accuracy.some((own) => own.quantity === quantity));
    return {
      name: key,
      accuracy: [...accuracy, ...kept],
      shows: readShows(get(item, 'shows'), sink),
      offset: usualOffset(key),
    };
  });
  const own = new Set(described.map(({ name }) => name));
  return [...usualInstruments.filter(({ name }) => !own.has(name)), ...described];
};
