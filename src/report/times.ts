import type { Instant } from '../core/job.ts';
import { dateTimeIn } from '../time/zones.ts';

/** `2026-03-02 08:40` in a zone. */
export const timeText = (at: Instant, zone: string): string =>
  dateTimeIn(zone, at).toFormat('yyyy-MM-dd HH:mm');

/** `2026-03-02T18:00:00.000Z`, for machines. */
export const isoText = (at: Instant): string => new Date(at).toISOString();

/** `2026-03-02 18:00:05` in a zone, for what happens while somebody looks on. */
export const secondText = (at: Instant, zone: string): string =>
  dateTimeIn(zone, at).toFormat('yyyy-MM-dd HH:mm:ss');
