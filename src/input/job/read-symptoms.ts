import { type Symptom, type SymptomPart, symptomWords } from '../../core/job.ts';
import { get, itemsOf, type Node, textOf } from '../yaml/tree.ts';

const parts = Object.keys(symptomWords) as SymptomPart[];

/** What the driver says, from one map or a list of them; words that are none the schema tells. */
export const readSymptoms = (node: Node | undefined): Symptom[] => {
  const nodes = node?.kind === 'map' ? [node] : itemsOf(node);
  return nodes.map(
    (one) => Object.fromEntries(parts.map((part) => [part, textOf(get(one, part)) ?? null])) as Symptom,
  );
};
