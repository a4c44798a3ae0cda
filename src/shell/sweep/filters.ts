import { isJudged, type JudgedRow, type Row } from '../../core/sweep/row.ts';

export const rowStates = ['open', 'waiting', 'closed'] as const;

/** Which rows a call wants; a file that cannot be judged is always among them, since nothing is known of it. */
export interface Filters {
  /** Statuses; null for those that are not closed. */
  readonly states: readonly JudgedRow['status'][] | null;
  /** Text that somebody or something waited for has in it, whatever its case. */
  readonly waitingFor: string | null;
  /** Whole days that a job has been open for longer than. */
  readonly olderThan: number | null;
}

/** Whether a row is wanted. */
export const wants = ({ states, waitingFor, olderThan }: Filters, row: Row): boolean => {
  if (!isJudged(row)) return true;
  const part = waitingFor?.toLowerCase() ?? null;
  return (
    (states === null ? row.status !== 'closed' : states.includes(row.status)) &&
    (part === null || row.waitsFor.some((one) => one.toLowerCase().includes(part))) &&
    (olderThan === null || row.daysOpen > olderThan)
  );
};
