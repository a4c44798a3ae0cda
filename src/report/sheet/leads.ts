import type { Job, Leads } from '../../core/job.ts';
import { oneLine } from '../clean.ts';
import type { Style } from '../style.ts';
import { wrap } from './grid.ts';

/** The newest stated places of both leads, by channel key. */
const newestLeads = ({ snapshots }: Job): ReadonlyMap<string, Leads> => {
  const found = new Map<string, Leads>();
  for (const { readings } of [...snapshots].sort((a, b) => a.stamp.at - b.stamp.at)) {
    for (const [key, reading] of readings) {
      if (reading.kind !== 'untaken' && reading.leads) found.set(key, reading.leads);
    }
  }
  return found;
};

/** Where both leads of the meter were for each reading that says so; null where none does. */
export const leadsList = (job: Job, { chalk, text, options }: Style): string | null => {
  const found = [...newestLeads(job)];
  if (found.length === 0) return null;
  const lines = found.flatMap(([key, { from, to }]) =>
    wrap(text(oneLine(`${key}: from ${from} to ${to}`)), options.width, 2, 4),
  );
  return [chalk.bold('Leads of the meter:'), ...lines].join('\n');
};
