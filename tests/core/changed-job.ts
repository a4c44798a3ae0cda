import fc from 'fast-check';
import {
  codeMeanings,
  codePlaces,
  codeStatuses,
  codeStores,
  conditionWords,
  type Job,
  type LogEntry,
  lampStates,
  type Reading,
  type Snapshot,
  states,
  type TroubleCode,
  verbs,
  type Waiver,
} from '../../src/core/job.ts';
import { keysOf } from '../../src/core/key.ts';
import type { Channel, Pack } from '../../src/core/pack.ts';

/** A change of a job: numbers that choose, so that one change fits any job and any packs. */
type Change = (job: Job, packs: readonly Pack[]) => Job;

const halfHour = 1_800_000;

const chosen = <T>(from: readonly T[], number: number): T => {
  const one = from[number % from.length];
  if (one === undefined) throw new Error('nothing to choose from');
  return one;
};

const channelKeys = (packs: readonly Pack[]): { readonly key: string; readonly channel: Channel }[] =>
  packs
    .flatMap(({ channels }) => channels)
    .flatMap((channel) =>
      (channel.per === 'vehicle' ? [''] : ['.LF', '.RF', '.LR', '.RR']).map((corner) => ({
        key: `${channel.id}${corner}`,
        channel,
      })),
    );

const typical: Readonly<Record<string, readonly number[]>> = {
  V: [0.1, 2.4, 2.55, 4.9, 12.4, 14.2],
  psi: [95, 110, 125],
  mm: [380, 400, 415],
  Ω: [2, 60],
};

const reading = fc.record({
  key: fc.nat(),
  kind: fc.nat(9),
  value: fc.nat(),
  off: fc.integer({ min: -20, max: 20 }),
});

const readingOf = (
  { kind, value, off }: { readonly kind: number; readonly value: number; readonly off: number },
  { unit, by }: Channel,
): Reading => {
  const typed = (number: number) => ({ value: number, resolution: 0.01, text: number.toFixed(2) });
  const number = chosen(typical[unit] ?? [5, 20], value) + off / 100;
  if (kind === 0) return { kind: 'untaken', why: 'out of reach' };
  if (kind === 1) return { kind: 'span', low: typed(number), high: typed(number + 0.4), by };
  const values = kind === 2 ? [number, number + 0.05, number - 0.02] : [number];
  return { kind: 'values', values: values.map(typed), by };
};

const code = fc.record({
  code: fc.constantFrom('C1A01', 'C1A02', 'U0100'),
  status: fc.constantFrom(...codeStatuses),
  mask: fc.constantFrom(null, 0x50, 0x09),
  means: fc.constantFrom(null, ...codeMeanings),
  failureType: fc.constantFrom(null, '11'),
  at: fc.constantFrom(null, ...codePlaces),
  storedIn: fc.constantFrom(null, ...codeStores),
  setBy: fc.constantFrom(null, 'test' as const),
}) satisfies fc.Arbitrary<TroubleCode>;

const conditions = Object.entries(conditionWords).flatMap(([name, words]) =>
  [undefined, ...words].map((word) => [name, word] as const),
);

/** Another snapshot: one of the job's own at another time and in another state, with other readings. */
const snapshot = fc
  .record({
    like: fc.nat(),
    after: fc.nat(60),
    state: fc.constantFrom(...states),
    readings: fc.array(reading, { maxLength: 8 }),
    words: fc.array(fc.constantFrom(...conditions), { maxLength: 5 }),
    lamp: fc.constantFrom(null, ...lampStates),
    codes: fc.option(fc.array(code, { maxLength: 2 })),
  })
  .map(
    ({ like, after, state, readings, words, lamp, codes }): Change =>
      (job, packs) => {
        const own = chosen(job.snapshots, like);
        const more = readings.map((one) => {
          const { key, channel } = chosen(channelKeys(packs), one.key);
          return [key, readingOf(one, channel)] as const;
        });
        const added: Snapshot = {
          ...own,
          id: `added-${job.snapshots.length}`,
          stamp: { at: job.opened + after * halfHour, resolution: 60_000 },
          state,
          conditions: { ...own.conditions, words: { ...own.conditions.words, ...Object.fromEntries(words) } },
          readings: new Map([...own.readings, ...more]),
          lamp,
          codes,
        };
        return { ...job, snapshots: [...job.snapshots, added] };
      },
  );

const entry = fc
  .record({
    after: fc.nat(60),
    did: fc.constantFrom(...verbs),
    what: fc.nat(),
    failed: fc.boolean(),
    coarse: fc.boolean(),
  })
  .map(
    ({ after, did, what, failed, coarse }): Change =>
      (job, packs) => {
        const parts = packs.flatMap(({ components }) => components).flatMap(({ id, per }) => keysOf(id, per));
        const steps = packs.flatMap((pack) => pack.steps).map(({ name }) => name);
        const others = ['codes', 'road-test', 'cost', 'readings/key-on', 'readings/running'];
        const added: LogEntry = {
          stamp: { at: job.opened + after * halfHour, resolution: coarse ? 3_600_000 : 60_000 },
          order: job.log.length,
          did,
          what: chosen([...parts, ...steps, ...others], what),
          failed,
          found: null,
          waitsFor: null,
          note: null,
          closing: null,
          to: null,
          by: null,
          reason: null,
          despite: null,
        };
        return { ...job, log: [...job.log, added] };
      },
  );

const waiver = fc
  .record({
    check: fc.nat(),
    subject: fc.constantFrom('', ':LR', ':body', ':C1A01', ':lamp'),
    ended: fc.boolean(),
  })
  .map(
    ({ check, subject, ended }): Change =>
      (job, packs) => {
        const { id } = chosen(
          packs.flatMap(({ checks }) => checks),
          check,
        );
        const added: Waiver = {
          finding: `${id}${subject}`,
          reason: 'known',
          by: 'the shop',
          until: '2026-03-03',
          ends: ended ? job.opened : Number.MAX_SAFE_INTEGER,
          isVoid: false,
          ended: false,
        };
        return { ...job, waivers: [...job.waivers, added] };
      },
  );

const vehicle = fc
  .record({
    check: fc.nat(),
    of: fc.constantFrom(null, 'LF', 'position.RR', 'front'),
    charging: fc.constantFrom('fixed', 'managed', null),
    heights: fc.constantFrom('wheel-centre' as const, 'floor' as const),
  })
  .map(
    ({ check, of, charging, heights: from }): Change =>
      (job, packs) => {
        const { id } = chosen(
          packs.flatMap(({ checks }) => checks),
          check,
        );
        const own = { check: id, of, limits: { low: 2.3, high: 2.6 }, weight: null, source: 'a data sheet' };
        const table = { points: [[2, 350] as const, [3, 450] as const], from };
        return {
          ...job,
          vehicle: {
            ...job.vehicle,
            charging,
            serviceData: [...job.vehicle.serviceData, own],
            heights: { LF: table, RF: table, LR: table, RR: table },
          },
        };
      },
  );

/** Any few changes of a job: what is read in which state and when, what is logged, accepted, and known of the vehicle. */
export const changes: fc.Arbitrary<Change> = fc
  .tuple(
    fc.array(snapshot, { maxLength: 5 }),
    fc.array(entry, { maxLength: 4 }),
    fc.array(waiver, { maxLength: 2 }),
    fc.array(vehicle, { maxLength: 1 }),
  )
  .map(
    (lists): Change =>
      (job, packs) =>
        lists.flat().reduce((changed, change) => change(changed, packs), job),
  );
