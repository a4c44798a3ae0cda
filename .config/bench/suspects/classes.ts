import type { WeighedSuspects } from '../../../src/core/suspects/weigh.ts';

/** Suspects of one corner that are one class until a test splits them: what makes its signal, and what holds its air. */
const signalParts = /^(?:sensor|linkage|wiring)\./u;
const airParts = /^(?:air-spring|air-line)\./u;

/** Of two coils that differ readings do not say which is wrong. */
const damperPart = /^damper\.[LR]([FR])$/u;

/** `sensor.LR`, `linkage.LR` and `wiring.LR` are `signal.LR`, `air-spring.LR` and `air-line.LR` are `air.LR`; a damper is its axle's. */
export const classOf = (suspect: string): string =>
  suspect
    .replace(signalParts, 'signal.')
    .replace(airParts, 'air.')
    .replace(damperPart, (_, end) => `damper.${end === 'F' ? 'front' : 'rear'}`);

/** How probable it is of each class that something in it is at fault, the most probable first. */
export const classesOf = ({
  model,
  worlds,
  probabilities,
}: WeighedSuspects): (readonly [string, number])[] => {
  const sums = new Map<string, number>();
  const names = model.hypotheses.map(({ id }) => classOf(id));
  for (const [place, { members }] of worlds.entries())
    for (const name of new Set(members.map((member) => names[member] ?? '')))
      sums.set(name, (sums.get(name) ?? 0) + (probabilities[place] ?? 0));
  return [...sums].sort((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1));
};
