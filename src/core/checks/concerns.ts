import type { Job } from '../job.ts';
import type { Check } from '../pack.ts';
import { matches } from '../steps/log-entries.ts';

/** Whether a check has anything to do with a job: its vehicle's layout, and what the log says was begun. */
export const concernsJob = ({ layouts, concerns }: Check, { vehicle, log }: Job): boolean =>
  (layouts === null || layouts.includes(vehicle.layout)) &&
  (concerns === null || log.some((entry) => matches(entry, concerns)));
