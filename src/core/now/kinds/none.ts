import type { Now } from '../now.ts';
import type { NowGround } from '../now-ground.ts';

/** The job is closed. */
export const none = ({ decisions, job }: NowGround): Now | null =>
  job.status === 'closed'
    ? {
        kind: 'none',
        id: null,
        title: { kind: 'closed', closing: decisions.closed?.closing ?? null },
        because: [],
        minutes: 0,
        elapsed: 0,
        cautions: [],
        command: null,
        instead: [],
        for: 'desk',
      }
    : null;
