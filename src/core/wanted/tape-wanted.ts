import type { Finding } from '../finding.ts';
import type { State } from '../job.ts';
import { parseKey } from '../key.ts';
import type { Channel } from '../pack.ts';

/** What a tape would decide: the readings for it, and the checks that would judge them. */
export interface TapeWanted {
  readonly state: State;
  readonly keys: ReadonlySet<string>;
  readonly checks: ReadonlySet<string>;
}

/** States in which the body stands still, the easiest to measure in first. */
const still: readonly State[] = ['key-on', 'rest', 'running'];

/** Channels of what is out now and accepted by nobody. */
const channelsOut = (findings: readonly Finding[], state: State): Set<string> =>
  new Set(
    findings
      .filter(
        ({ newest, stale, verdict, waived, state: at }) =>
          newest && !stale && verdict === 'out' && waived === null && at === state,
      )
      .flatMap(({ channels }) => [...channels]),
  );

/**
 * The heights that decide whether something out is so, or only its signal: where a check lacks nothing but readings with
 * a tape, and shares a channel with something that is out. What it holds them against is wanted with them, since both
 * must be read at one time. Measuring in one state is enough.
 */
export const tapeWanted = (
  findings: readonly Finding[],
  channels: ReadonlyMap<string, Channel>,
): TapeWanted | null => {
  const byTape = (key: string): boolean => channels.get(parseKey(key).base)?.by === 'tape';
  const asking = findings.filter(
    ({ missing, wanted, waived }) =>
      !wanted && waived === null && missing?.why === 'no-reading' && missing.channels.every(byTape),
  );
  for (const state of still) {
    const out = channelsOut(findings, state);
    const own = asking.filter(
      ({ readIn, channels: keys }) => readIn.includes(state) && keys.some((key) => out.has(key)),
    );
    if (own.length === 0) continue;
    return {
      state,
      keys: new Set(own.flatMap(({ channels: keys }) => [...keys])),
      checks: new Set(own.map(({ check }) => check)),
    };
  }
  return null;
};
