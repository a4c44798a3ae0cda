import { heldBack } from '../../core/assess.ts';
import type { BriefWorksheet } from '../../core/worksheet.ts';
import type { WorksheetHoldPoint } from '../../core/worksheet-parts.ts';
import type { TypedFault } from '../../input/typed/typed.ts';
import type { OpenJob } from '../open-job.ts';
import type { PlannedLog } from './plan-log.ts';

/** An entry that its hold point does not allow, with the sheet as it stands before it. */
export interface Held {
  readonly planned: PlannedLog;
  readonly point: WorksheetHoldPoint;
  readonly sheet: BriefWorksheet;
}

const heldBy = ({ read: { job, prepared } }: OpenJob, planned: PlannedLog): Held | null => {
  if (job === null) return null;
  for (const entry of planned.entries) {
    const held = heldBack(job, prepared, entry);
    if (held) return { planned, ...held };
  }
  return null;
};

/** What does not allow a planned entry; null where nothing does, or where it is to be written all the same. */
export const heldIn = (opened: OpenJob, planned: PlannedLog, despite: boolean): Held | null =>
  despite ? null : heldBy(opened, planned);

/** Whether a hold point does not allow a planned entry. */
export const isAgainst = (opened: OpenJob, planned: PlannedLog): boolean => heldBy(opened, planned) !== null;

/** Said of `--despite` where nothing stands against the entry. */
export const needless: TypedFault = {
  typed: '--despite',
  message: 'its hold point does not stand against this entry',
  hint: 'leave it out',
};
