import type { Closing } from '../job.ts';
import { loggedReason } from '../steps/reasons.ts';
import type { Reason } from '../worksheet-parts.ts';
import { choose, logged, say } from './command.ts';
import type { Now } from './now.ts';
import type { NowGround } from './now-ground.ts';

const toClose = (closing: Closing | null, because: readonly Reason[]): Now => {
  const results: readonly string[] =
    closing === null ? ['declined', 'passed-on', 'towed', 'scrapped'] : [closing];
  const told = closing === 'repaired' ? [] : [say('reason'), say('by')];
  return {
    kind: 'step',
    id: 'close',
    title: { kind: 'close', closing },
    because,
    minutes: 0,
    elapsed: 0,
    cautions: [],
    command: logged('closed', null, choose('result', results), ...told),
    instead: [],
    for: 'desk',
  };
};

/** The vehicle has left, by the release or to somebody else: its file is closed. */
export const whenGone = ({ decisions, holdPoints }: NowGround): Now | null => {
  const { passedOn, released, declined } = decisions;
  const gone = passedOn ?? released;
  if (!gone) return null;
  const because = [loggedReason(gone)];
  if (passedOn) return toClose('passed-on', because);
  const isClear = holdPoints.find(({ id }) => id === 'release')?.clear !== false;
  // What the customer did not want repaired is no repair.
  return toClose(isClear ? (declined.size > 0 ? 'declined' : 'repaired') : null, because);
};

/** What is left where a repair was declined and the vehicle cannot be released: the job ends as it is. */
export const whenDeclined = ({ decisions: { declined }, holdPoints }: NowGround): Now | null => {
  const release = holdPoints.find(({ id }) => id === 'release');
  return declined.size > 0 ? toClose('declined', release?.reasons ?? []) : null;
};
