import type { LogEntry } from '../../job.ts';
import { parseKey } from '../../key.ts';
import { takenBack } from '../../steps/log-entries.ts';
import { isWork } from '../../steps/staleness.ts';
import { openWaits } from '../../steps/waiting.ts';
import { type Command, logged, say } from '../command.ts';
import type { Actor, Now } from '../now.ts';
import { type NowGround, stepNamed } from '../now-ground.ts';

const isComponent = (what: string, { components }: NowGround['prepared']): boolean =>
  components.some(({ id }) => id === parseKey(what).base);

/** Parts that were ordered and have not come, with the order. */
const awaited = ({ job, prepared }: NowGround): LogEntry[] =>
  job.log.filter(
    (entry, place) =>
      entry.did === 'ordered' &&
      entry.what !== null &&
      isComponent(entry.what, prepared) &&
      !entry.failed &&
      !takenBack(entry, job) &&
      !job.log.some(
        (later, at) =>
          at > place &&
          later.what === entry.what &&
          (later.did === 'received' || later.did === 'ordered' || isWork(later)),
      ),
  );

const titleOf = (what: string, ground: NowGround): string => {
  const base = what.split('.')[0] ?? what;
  const component = ground.prepared.components.find(({ id }) => id === base);
  const place = what.slice(base.length + 1);
  if (component) return place === '' ? component.title : `${component.title}, ${place}`;
  return stepNamed(what, ground)?.title ?? what;
};

const waitFor = (
  what: string,
  { stamp, waitsFor }: LogEntry,
  whom: Actor,
  command: Command,
  ground: NowGround,
): Now => ({
  kind: 'wait',
  id: what,
  title: { kind: 'wait', what: titleOf(what, ground), whom: waitsFor },
  because: [{ kind: 'waiting-since', at: stamp.at, whom: waitsFor }],
  minutes: 0,
  elapsed: 0,
  cautions: [],
  command,
  instead: [],
  for: whom,
});

/** What ends a wait for a thing: that it has come, that a step is done, or a note that it is over. */
const ending = (what: string | null, ground: NowGround): Command => {
  if (what === null) return logged('noted', null, say('note'));
  if (what === 'cost') return logged('authorised', 'cost', say('by'));
  if (stepNamed(what, ground)) return logged('completed', what);
  const base = what.split('.')[0] ?? what;
  return ground.prepared.components.some(({ id }) => id === base)
    ? logged('received', what)
    : logged('noted', what, say('note'));
};

/** A part that was ordered, or what somebody said that the job waits for. */
export const wait = (ground: NowGround): Now | null => {
  const [part] = awaited(ground);
  if (part?.what) {
    const said = openWaits(ground.job).find(({ what }) => what === part.what);
    return waitFor(part.what, said ?? part, 'parts', logged('received', part.what), ground);
  }
  const [open] = openWaits(ground.job);
  if (!open) return null;
  const whom = open.what === 'cost' ? 'desk' : 'customer';
  return waitFor(open.what ?? 'vehicle', open, whom, ending(open.what, ground), ground);
};
