import type { Finding, Missing } from '../finding.ts';
import { type Instant, type LogEntry, type State, states, workVerbs } from '../job.ts';
import { parseKey } from '../key.ts';
import type { Channel, Step } from '../pack.ts';
import type { Reason, WorksheetStep } from '../worksheet-parts.ts';
import type { Ground } from './ground.ts';
import { type Asking, everything, heldBy, type ReadingPacks } from './reading-holds.ts';
import { loggedReason } from './reasons.ts';
import { isWork, staleSince } from './staleness.ts';
import { waitsForSomebody } from './waiting.ts';

/** What one state still wants. */
interface Wanted {
  readonly missing: Set<string>;
  readonly stale: Set<string>;
  /** Checks that had their readings and could say nothing of them. */
  readonly open: Reason[];
}

/** States in the order in which they are easiest to bring about. */
export const easiest: readonly State[] = ['key-on', 'running', 'cranking', 'rest', 'driving'];

/** No reading would change these: the limits are not for this vehicle. */
const beyondReading: ReadonlySet<Missing['why']> = new Set([
  'vehicle-differs',
  'vehicle-not-stated',
  'no-table',
  'no-limits',
  'no-code-list',
  'no-status-byte',
]);

/** Whether a check had its readings, and says nothing of them for another reason that a reading could mend. */
export const isOpen = ({ why }: Missing): boolean =>
  why !== 'no-reading' && why !== 'no-snapshot' && why !== 'no-lamp' && !beyondReading.has(why);

/** What a not-taken finding asks for, sorted into the state to read it in. */
const sortMissing = (
  finding: Finding,
  missing: Missing,
  at: (state: State) => Wanted,
  asking: Asking,
): void => {
  const state = easiest.find((one) => finding.readIn.includes(one)) ?? 'key-on';
  if (missing.why === 'no-reading' || missing.why === 'no-snapshot') {
    for (const channel of missing.channels)
      if (asking.reading(channel, finding)) at(state).missing.add(channel);
  } else if (missing.why === 'no-lamp') {
    if (asking.reading('lamp', finding)) at(state).missing.add('lamp');
  } else if (isOpen(missing) && asking.open(missing)) {
    const { checkTitle: title, subject } = finding;
    at(state).open.push({ kind: 'reading-open', title, subject, missing });
  }
};

/** What checks still want, by the state to read it in. */
export const wantedByState = (
  findings: readonly Finding[],
  asking: Asking = everything,
): Map<State, Wanted> => {
  const byState = new Map<State, Wanted>();
  const at = (state: State): Wanted => {
    const found = byState.get(state) ?? { missing: new Set(), stale: new Set(), open: [] };
    byState.set(state, found);
    return found;
  };
  for (const finding of findings) {
    if (finding.waived !== null) continue;
    if (finding.missing && finding.wanted) sortMissing(finding, finding.missing, at, asking);
    if (finding.stale && finding.newest && finding.state && !finding.moment) {
      for (const channel of finding.channels) at(finding.state).stale.add(channel);
      // Code lists have steps of their own; the lamp is a look in passing.
      if (finding.kind === 'lamp') at('key-on').stale.add('lamp');
    }
  }
  return byState;
};

/** Outstanding work that would make a reading stale again at once: the reading waits for it. */
const workAhead = (
  keys: readonly string[],
  outstanding: readonly Step[],
  channels: ReadonlyMap<string, Channel>,
): string[] =>
  outstanding
    .filter(({ answeredBy }) =>
      answeredBy.some(
        ({ did, what }) =>
          did.some((verb) => verb === 'work' || workVerbs.includes(verb)) &&
          (what ?? []).some((component) =>
            keys.some((key) => channels.get(parseKey(key).base)?.depends.includes(parseKey(component).base)),
          ),
      ),
    )
    .map(({ id }) => id);

const endsReading = ({ did }: LogEntry): boolean => did === 'completed' || did === 'skipped';

/** Somebody says that these readings will not be taken: after the newest of them, and after the last work. */
const signedOff = (state: State, { job }: Ground): LogEntry | null => {
  if (!job.log.some(endsReading)) return null;
  const since: Instant = Math.max(
    0,
    ...job.snapshots.filter((one) => one.state === state).map(({ stamp }) => stamp.at),
    ...job.log.filter(isWork).map(({ stamp }) => stamp.at),
  );
  return (
    job.log.findLast(
      (entry) =>
        endsReading(entry) && entry.what === `readings/${state}` && !entry.failed && entry.stamp.at >= since,
    ) ?? null
  );
};

/** The work that made the readings stale. */
const disturbedBy = (
  stale: readonly string[],
  state: State,
  { job }: Ground,
  channels: ReadonlyMap<string, Channel>,
): string[] => {
  const works = stale.flatMap((key) => {
    const newest = job.snapshots.findLast((one) => one.state === state && one.readings.has(key));
    const entry = newest && staleSince(job.log, channels, [key], newest.stamp.at);
    return entry ? [`${entry.did} ${entry.what}`] : [];
  });
  return [...new Set(works)];
};

/** Steps after the work that come before anything is read again, where a pack has retests. */
const beforeRetests = (outstanding: readonly Step[], retest: Step | null): string[] =>
  outstanding
    .filter(({ name, base }) => retest?.after.includes(name) || retest?.after.includes(base))
    .map(({ id }) => id);

const stepFor = (
  state: State,
  wanted: Wanted,
  ground: Ground,
  outstanding: readonly Step[],
  { channelById: channels, retest }: ReadingPacks,
): WorksheetStep => {
  const stale = [...wanted.stale].sort();
  const missing = [...wanted.missing].filter((key) => !wanted.stale.has(key)).sort();
  const keys = [...missing, ...stale];
  const read = keys.map((key) => channels.get(parseKey(key).base));
  const because: Reason[] = [...wanted.open];
  if (missing.length > 0) because.unshift({ kind: 'readings-missing', channels: missing });
  if (stale.length > 0) {
    because.push({
      kind: 'readings-stale',
      channels: stale,
      after: disturbedBy(stale, state, ground, channels),
    });
  }
  const again = stale.length > 0 && missing.length === 0 && wanted.open.length === 0;
  const id = `readings/${state}`;
  const ahead = [
    ...(ground.job.log.some(isWork) ? workAhead(keys, outstanding, channels) : []),
    ...(stale.length > 0 ? beforeRetests(outstanding, retest) : []),
  ];
  const waitsFor = [...new Set(ahead), ...waitsForSomebody({ id, name: id }, ground)];
  const signed = stale.length === 0 ? signedOff(state, ground) : null;
  return {
    id,
    base: 'readings',
    title: again ? `Readings again, ${state}` : `Readings still to take, ${state}`,
    state: signed ? 'done' : waitsFor.length > 0 ? 'waiting' : 'ready',
    waitsFor: signed ? [] : waitsFor,
    because: signed ? [loggedReason(signed)] : because,
    minutes: read.reduce((sum, channel) => sum + (channel?.minutes ?? 0), 0),
    elapsed: 0,
    due: null,
    needs: null,
    unequipped: false,
    points: [],
    cautions: [...new Set(read.flatMap((channel) => channel?.cautions ?? []))],
  };
};

/** Vehicle data that a check needs and the job does not state: typed, not read. */
const dataStep = (findings: readonly Finding[], { job }: Ground): WorksheetStep[] => {
  const open: Reason[] = [];
  for (const { missing, wanted, waived, checkTitle: title, subject } of findings) {
    if (missing?.why === 'vehicle-not-stated' && wanted && waived === null)
      open.push({ kind: 'reading-open', title, subject, missing });
  }
  if (open.length === 0) return [];
  const signed = job.log.findLast((entry) => endsReading(entry) && entry.what === 'readings/vehicle');
  return [
    {
      id: 'readings/vehicle',
      base: 'readings',
      title: "State the vehicle's data in the job file",
      state: signed ? 'done' : 'ready',
      waitsFor: [],
      because: signed ? [loggedReason(signed)] : open,
      minutes: 1,
      elapsed: 0,
      due: null,
      needs: null,
      unequipped: false,
      points: [],
      cautions: [],
    },
  ];
};

/**
 * A step a state for what the checks could not judge, or what work has made stale: not taken is not within. A step
 * whose readings cannot be had is settled by `completed readings/STATE`; stale ones must be taken. Readings that
 * only a test asks for make no step until they are stale, nor do those that hold nothing.
 */
export const readingSteps = (
  ground: Ground,
  outstanding: readonly Step[],
  packs: ReadingPacks,
): WorksheetStep[] => {
  const byState = wantedByState(ground.findings.all, heldBy(ground, packs));
  const steps = packs.always === null ? dataStep(ground.findings.all, ground) : [];
  for (const state of states) {
    const wanted = byState.get(state);
    if (wanted) steps.push(stepFor(state, wanted, ground, outstanding, packs));
  }
  return steps;
};

/** Readings that would be worth taking and hold nothing, by the state to take them in. */
export const worthTaking = (
  ground: Ground,
  packs: ReadingPacks,
): { readonly state: State; readonly channels: readonly string[] }[] => {
  if (packs.always === null) return [];
  const held = wantedByState(ground.findings.all, heldBy(ground, packs));
  return [...wantedByState(ground.findings.all)].flatMap(([state, { missing }]) => {
    const channels = [...missing].filter((key) => !held.get(state)?.missing.has(key)).sort();
    return channels.length > 0 && signedOff(state, ground) === null ? [{ state, channels }] : [];
  });
};
