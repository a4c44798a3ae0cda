import type { Costs } from '../job.ts';

export interface CostState {
  /** Sum of all lines whose amount is known. */
  readonly total: number;
  /** What the newest authorisation allows in all; null where there is none. */
  readonly authorised: number | null;
  /** Lines that have neither an amount nor what is needed to work it out. */
  readonly unknown: readonly string[];
}

/** Adds up a job's cost lines; labour without an amount is its minutes at the labour rate. */
export const costState = (costs: Costs): CostState => {
  let total = 0;
  const unknown: string[] = [];
  for (const line of costs.lines) {
    const byTime =
      line.minutes !== null && costs.labourRate !== null ? (line.minutes / 60) * costs.labourRate : null;
    const amount = line.amount ?? byTime;
    if (amount === null) unknown.push(line.what);
    else total += amount;
  }
  const newest = [...costs.authorised].sort((a, b) => a.at - b.at).at(-1);
  return { total, authorised: newest?.amount ?? null, unknown };
};
