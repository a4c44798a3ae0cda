import type { Job, Reading, State } from '../../src/core/job.ts';
import { keyOf } from '../../src/core/key.ts';
import { isRepair, isWork } from '../../src/core/steps/staleness.ts';
import { usualOutcome } from '../../src/core/suspects/outcome-table.ts';
import type { SuspectModel } from '../../src/core/suspects/suspect-model.ts';
import { readingOf, type Somebody, soundValue } from './follow-now.ts';

/** Numbers from 0 to below 1 that a seed fixes (mulberry32). */
export const seeded = (seed: number): (() => number) => {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
};

const pick = <T>(from: readonly T[], next: () => number, otherwise: T): T =>
  from[Math.floor(next() * from.length)] ?? otherwise;

/** How a sound vehicle stands while it is read. */
const usual: Readonly<Record<string, string>> = {
  floor: 'level',
  load: 'empty',
  levelling: 'active',
  maintainer: 'off',
  'on-stops': 'no',
  'heights-from': 'wheel-centre',
  mode: 'normal',
  doors: 'shut',
  compressor: 'off',
};

const usualWord = (name: string, wants: readonly string[]): string =>
  wants.length === 1 ? (wants[0] ?? '') : (usual[name] ?? wants[0] ?? '');

/** Somebody who takes whatever line there is, and finds anything at all: tests, readings, codes, failed work. */
export const atRandom = (seed: number): Somebody => {
  const next = seeded(seed);
  const chance = (of: number): boolean => next() < of;
  return {
    choose: (commands) => (chance(0.85) ? commands[0] : pick(commands, next, commands[0])) as never,
    finds: (_, outcomes) => pick(outcomes, next, ''),
    reads: (key, state, job, conditions) => {
      if (chance(0.03)) return { kind: 'untaken', why: 'out of reach' };
      const sound = soundValue(key, state, job, conditions);
      return readingOf(chance(0.8) ? sound : sound * (0.3 + 1.2 * next()));
    },
    lamp: () => (chance(0.85) ? 'off' : pick(['on', 'flashing', 'no-self-test'] as const, next, 'on')),
    codes: (job) => {
      const known = job.snapshots.flatMap(({ codes }) => codes ?? []);
      return chance(0.8) || known.length === 0 ? [] : [pick(known, next, known[0] as never)];
    },
    condition: (name, wants) =>
      chance(0.9) ? usualWord(name, wants) : pick(wants, next, usualWord(name, wants)),
    passes: () => chance(0.75),
  };
};

/** The newest reading of a channel, in its state where there is one; not of what changes with the state. */
const newestOf = (key: string, state: State, { snapshots }: Job): Reading | null => {
  const inState = snapshots.findLast((one) => one.state === state && one.readings.has(key));
  const ofSupply = key === 'supply' || key.startsWith('battery');
  const from = inState ?? (ofSupply ? undefined : snapshots.findLast(({ readings }) => readings.has(key)));
  const reading = from?.readings.get(key);
  return reading && reading.kind !== 'untaken' ? reading : null;
};

/** The components that causes are about, such as `linkage.LF`: those that are repaired. */
export const componentsOf = (causes: readonly string[], model: SuspectModel): string[] =>
  causes.flatMap((id) => {
    const one = model.hypotheses.find((hypothesis) => hypothesis.id === id);
    return one?.suspect?.repaired ? [keyOf(one.suspect.component, one.place)] : [];
  });

/** Somebody at a vehicle with known faults: it reads as it did until all of them are mended, and then it is sound. */
export const atFaults = (
  causes: readonly string[],
  results: Readonly<Record<string, string>>,
  model: SuspectModel,
): Somebody => {
  const components = componentsOf(causes, model);
  const isMended = ({ log }: Job): boolean =>
    components.every((component) =>
      log.some((entry) => (isRepair(entry) || isWork(entry)) && entry.what === component && !entry.failed),
    );
  return {
    choose: ([first]) => first as never,
    finds: (what, outcomes, job) => {
      const probing = model.tests.find(({ id }) => id === what);
      const good =
        probing && probing.inspects === null
          ? probing.test.outcomes[usualOutcome(probing)]?.id
          : 'nothing-seen';
      return (isMended(job) ? null : results[what]) ?? good ?? outcomes[0] ?? '';
    },
    reads: (key, state, job, conditions) =>
      (isMended(job) ? null : newestOf(key, state, job)) ??
      readingOf(soundValue(key, state, job, conditions)),
    lamp: (job) => (isMended(job) ? 'off' : (job.snapshots.findLast(({ lamp }) => lamp)?.lamp ?? 'off')),
    codes: (job) => (isMended(job) ? [] : (job.snapshots.findLast(({ codes }) => codes)?.codes ?? [])),
    condition: usualWord,
    passes: () => true,
  };
};
