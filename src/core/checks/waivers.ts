import type { Job, Waiver } from '../job.ts';

/** Whether a waiver names a finding: by its check, or by check and subject. */
export const covers = ({ finding }: Waiver, check: string, subject: string): boolean =>
  finding === check || finding === `${check}:${subject}`;

/** The waiver that accepts a finding now, or null: it names it, and has not ended. */
export const waiverFor = (job: Job, check: string, subject: string): Waiver | null =>
  job.waivers.find((waiver) => !waiver.isVoid && !waiver.ended && covers(waiver, check, subject)) ?? null;
