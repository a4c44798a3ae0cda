import type { Finding } from '../finding.ts';
import { type State, states, workVerbs } from '../job.ts';
import { parseKey } from '../key.ts';
import type { Channel } from '../pack.ts';
import type { Reason, WorksheetStep } from '../worksheet.ts';
import type { Ground } from './facts.ts';
import { isWork, staleSince } from './staleness.ts';
import type { Standing } from './step-state.ts';

interface Wanted {
  readonly missing: Set<string>;
  readonly stale: Set<string>;
}

/** The state in which a reading is easiest to take, of those that serve. */
const easiest: readonly State[] = ['key-on', 'running', 'cranking', 'rest', 'driving'];

const absent = new Set(['no-snapshot', 'no-reading']);

/** Channels that checks still want, by the state to read them in. */
const wantedByState = (findings: readonly Finding[]): Map<State, Wanted> => {
  const byState = new Map<State, Wanted>();
  const at = (state: State): Wanted => {
    const found = byState.get(state) ?? { missing: new Set(), stale: new Set() };
    byState.set(state, found);
    return found;
  };
  for (const finding of findings) {
    const { missing, state: readIn, stale, newest, verdict, wanted, channels, waived } = finding;
    if (waived !== null || channels.length === 0) continue;
    if (missing && absent.has(missing.why) && 'states' in missing && wanted) {
      const state = easiest.find((one) => missing.states.includes(one));
      for (const channel of missing.channels) if (state) at(state).missing.add(channel);
    }
    if (stale && newest && readIn && (wanted || verdict === 'out')) {
      for (const channel of channels) at(readIn).stale.add(channel);
    }
  }
  return byState;
};

/** Outstanding work that would make a reading stale again at once: the reading waits for it. */
const workAhead = (
  keys: readonly string[],
  standings: readonly Standing[],
  channels: ReadonlyMap<string, Channel>,
): string[] =>
  standings
    .filter(({ needed, done }) => needed && !done)
    .filter(({ step }) =>
      step.answeredBy.some(
        ({ did, what }) =>
          did.some((verb) => verb === 'work' || workVerbs.includes(verb)) &&
          (what ?? []).some((component) =>
            keys.some((key) => channels.get(parseKey(key).base)?.depends.includes(parseKey(component).base)),
          ),
      ),
    )
    .map(({ step }) => step.id);

/**
 * A step a state for the readings that the checks lack, or that work has made stale. Readings that somebody says
 * could not be taken, and those that only a test asks for, make none.
 */
export const readingSteps = (
  ground: Ground,
  standings: readonly Standing[],
  channels: ReadonlyMap<string, Channel>,
): WorksheetStep[] => {
  const byState = wantedByState(ground.findings);
  const worked = ground.job.log.some(isWork);
  return states.flatMap((state): WorksheetStep[] => {
    const wanted = byState.get(state);
    if (!wanted) return [];
    const stale = [...wanted.stale].sort();
    const missing = [...wanted.missing].filter((key) => !wanted.stale.has(key)).sort();
    const keys = [...missing, ...stale];
    const after = stale.map((key) => {
      const newest = ground.job.snapshots.findLast((one) => one.state === state && one.readings.has(key));
      const entry = newest && staleSince(ground.job.log, channels, [key], newest.stamp.at);
      return entry ? `${entry.did} ${entry.what}` : null;
    });
    const because: Reason[] = [];
    if (missing.length > 0) because.push({ kind: 'readings-missing', channels: missing });
    if (stale.length > 0) {
      const works = [...new Set(after.filter((work) => work !== null))];
      because.push({ kind: 'readings-stale', channels: stale, after: works });
    }
    const waitsFor = worked ? workAhead(keys, standings, channels) : [];
    return [
      {
        id: `readings/${state}`,
        title:
          stale.length > 0 && missing.length === 0
            ? `Readings again, ${state}`
            : `Readings still to take, ${state}`,
        state: waitsFor.length > 0 ? 'waiting' : 'ready',
        waitsFor,
        because,
        minutes: keys.reduce((sum, key) => sum + (channels.get(parseKey(key).base)?.minutes ?? 0), 0),
        needs: null,
        unequipped: false,
        points: [],
        cautions: [],
      },
    ];
  });
};
