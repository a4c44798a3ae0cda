import { useClockBefore, type ZoneClock } from '../time/clock.ts';

/** Questions after which the library's clock is the quicker one: it takes long to start, and less for each. */
const few = 100;

/** What the process' own clocks show at an instant, as milliseconds as if in UTC. */
const shownAt = (at: number): number => {
  const there = new Date(at);
  const shown = new Date(0);
  shown.setUTCFullYear(there.getFullYear(), there.getMonth(), there.getDate());
  return shown.setUTCHours(there.getHours(), there.getMinutes(), there.getSeconds(), there.getMilliseconds());
};

/** Answers as if the process were in a zone, and puts it back where it was. */
const within = <T>(env: NodeJS.ProcessEnv, zone: string, answer: () => T): T => {
  const before = env.TZ;
  env.TZ = zone;
  try {
    return answer();
  } finally {
    if (before === undefined) delete env.TZ;
    else env.TZ = before;
  }
};

const offsetWithin = (env: NodeJS.ProcessEnv, zone: string, at: number): number =>
  within(env, zone, () => shownAt(at) - at);

/** Whether the process goes where it is sent: a thread of it does not, nor does every platform. */
const goes = (env: NodeJS.ProcessEnv): boolean =>
  offsetWithin(env, 'Asia/Kathmandu', Date.UTC(2020, 0)) === 345 * 60_000 &&
  offsetWithin(env, 'Etc/GMT+3', Date.UTC(2020, 0)) === -180 * 60_000;

/**
 * Looks a few zones up by sending the process there, as Node documents of `process.env.TZ`: its own clocks go by the
 * same zone database as `Intl`, and are ready in a tenth of the time. What cannot be known so, and whatever comes after
 * many questions, the library is asked.
 *
 * @param env the process' own environment
 * @param library the library's clock
 */
export const hostClock = (env: NodeJS.ProcessEnv, library: ZoneClock): ZoneClock => {
  let asked = 0;
  let works: boolean | undefined;
  const names = new Set<string>();
  const asksHost = (): boolean => {
    asked += 1;
    if (asked > few) return false;
    works ??= goes(env);
    return works;
  };
  return {
    isZone: (name) => {
      if (names.size === 0) for (const known of Intl.supportedValuesOf('timeZone')) names.add(known);
      // The list has no other names of the same zones.
      return names.has(name) || library.isZone(name);
    },
    offsetAt: (zone, at) =>
      asksHost() && names.has(zone) ? offsetWithin(env, zone, at) : library.offsetAt(zone, at),
  };
};

/** Has this process' zones looked up by its own clocks first; for the main thread alone. */
export const useHostClock = (): void => useClockBefore((library) => hostClock(process.env, library));
