import type { Job, Waiver } from '../job.ts';

/** The waiver that accepts a finding now, or null: it names the check or the check and subject, and has not ended. */
export const waiverFor = (job: Job, check: string, subject: string): Waiver | null =>
  job.waivers.find(
    (waiver) =>
      !waiver.isVoid &&
      !waiver.ended &&
      (waiver.finding === check || waiver.finding === `${check}:${subject}`),
  ) ?? null;
