import { assess } from '../../../src/core/assess.ts';
import type { Job, LogEntry } from '../../../src/core/job.ts';
import type { PreparedPacks } from '../../../src/core/prepare/prepared-packs.ts';
import type { Ranking } from '../../../src/core/suspects/ranking.ts';
import type { Key } from './read-cases.ts';

/** After everything that the cases hold. */
export const asOf = Date.UTC(2027, 11, 31);

const entryOf = (job: Job, did: LogEntry['did'], what: string, found: string): LogEntry => {
  const last = [...job.snapshots, ...job.log].reduce((at, { stamp }) => Math.max(at, stamp.at), job.opened);
  return {
    stamp: { at: last + 60_000, resolution: 60_000 },
    order: job.log.length + 1,
    did,
    what,
    found,
    failed: false,
    waitsFor: null,
    note: null,
    closing: null,
    to: null,
    by: null,
    reason: null,
    despite: null,
  };
};

/** What a test finds: as the key says, else what is likeliest under the cause; an inspection sees nothing. */
const resultOf = (id: string, key: Key, { nextTests }: Ranking): string => {
  const said = key.results[id];
  if (said !== undefined) return said;
  if (id.startsWith('inspected ')) return 'nothing-seen';
  const outcomes = nextTests.find((test) => test.id === id)?.outcomes ?? [];
  const cause = key.cause[0] ?? '';
  const chance = (outcome: (typeof outcomes)[number]): number => outcome.under.get(cause) ?? outcome.chance;
  return (
    outcomes.reduce((best, one) => (chance(one) > chance(best) ? one : best), outcomes[0] as never)?.id ?? ''
  );
};

/** How a walk through the advice ended, and what it cost. */
export interface Walk {
  readonly end: 'right' | 'wrong' | 'passed-on' | 'nothing';
  readonly part: string | null;
  readonly tests: readonly string[];
  readonly minutes: number;
  /** Conditions of the advice that were not met where it ended. */
  readonly lacks: readonly string[];
}

/** The conditions that are not met, and what each lacks. */
const lacksOf = ({ advice }: Ranking): string[] =>
  (advice?.conditions ?? []).filter(({ met }) => !met).map(({ id, lacks }) => `${id} (${lacks.join(', ')})`);

const most = 25;

/** Does the advised test again and again until a part is advised or nothing pays, with the key's results. */
export const walk = (first: Job, key: Key, packs: PreparedPacks): Walk => {
  let job = first;
  const tests: string[] = [];
  let minutes = 0;
  for (;;) {
    const { ranking } = assess(job, packs, asOf);
    if (!ranking) return { end: 'nothing', part: null, tests, minutes, lacks: [] };
    const leader = ranking.suspects[0]?.id ?? '';
    if (ranking.advice?.met) {
      const right = key.cause.includes(leader) || key.alike.includes(leader);
      return { end: right ? 'right' : 'wrong', part: leader, tests, minutes, lacks: [] };
    }
    const [next] = ranking.nextTests;
    const pays = next && (next.saves === null || next.saves > 0 || next.confirms);
    if (!next || !pays || tests.length >= most)
      return { end: 'passed-on', part: leader, tests, minutes, lacks: lacksOf(ranking) };
    minutes += next.minutes + next.brings;
    tests.push(next.id);
    const found = resultOf(next.id, key, ranking);
    const entry = next.id.startsWith('inspected ')
      ? entryOf(job, 'inspected', next.id.slice('inspected '.length), found)
      : entryOf(job, 'tested', next.id, found);
    job = { ...job, log: [...job.log, entry] };
  }
};
