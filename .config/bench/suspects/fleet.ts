import type { PreparedPacks } from '../../../src/core/prepare/prepared-packs.ts';
import type { Bench } from './answers.ts';
import { drawMember } from './faults.ts';
import { instrumentsFrom } from './instruments.ts';
import { type Depth, jobText } from './job-text.ts';
import { judgeText } from './judging.ts';
import {
  type Case,
  followAdvice,
  type Outcome,
  replaceLikeliest,
  replaceModule,
  testEverything,
} from './policies.ts';
import { drawFrom } from './random.ts';
import { judge, type Verdict } from './score.ts';

/** The policies that are held against each other, in the order of the report. */
export const policies = {
  'follow the advised tests': followAdvice,
  'replace the module at once': replaceModule,
  'replace the likeliest part': replaceLikeliest,
  'test everything': testEverything,
} as const;
export type Policy = keyof typeof policies;

/** What one vehicle came to. */
export interface Result {
  /** Null for a healthy one. */
  readonly full: Verdict | null;
  readonly first: Verdict | null;
  /** Ids of what is out on a healthy one. */
  readonly falseAlarms: readonly string[];
  /** Null where the first look shows nothing, and nobody is suspected. */
  readonly costs: Readonly<Record<Policy, Outcome>> | null;
}

/** Instruments are drawn anew for each sheet from one stream, so that the same technician does both. */
const benchOf = (seed: number, number: number): Bench => ({
  member: drawMember(number, drawFrom(seed, 3 * number)),
  by: instrumentsFrom(drawFrom(seed, 3 * number + 1)),
  luck: drawFrom(seed, 3 * number + 2),
});

/** The job file of a vehicle of the fleet. */
export const textOf = (seed: number, number: number, depth: Depth): string => {
  const { member, by } = benchOf(seed, number);
  return jobText(number, member.car, by, depth);
};

/** Draws one vehicle, has it typed and judged, and lets each policy have a go at it. */
export const tryVehicle = (seed: number, number: number, packs: PreparedPacks): Result => {
  const { member } = benchOf(seed, number);
  const sheets = {
    full: judgeText(textOf(seed, number, 'full sheet'), packs),
    first: judgeText(textOf(seed, number, 'first look'), packs),
  };
  if (member.fault === null) {
    const out = [...sheets.full.findings, ...sheets.first.findings].filter(
      ({ verdict }) => verdict === 'out',
    );
    return { full: null, first: null, costs: null, falseAlarms: out.map(({ id }) => id) };
  }
  const { ranking } = sheets.first;
  const text = textOf(seed, number, 'first look');
  // Every policy meets the same luck.
  const start = (): Case => ({ text, packs, bench: benchOf(seed, number) });
  return {
    full: judge(member, sheets.full.ranking),
    first: judge(member, ranking),
    falseAlarms: [],
    costs: ranking && {
      'follow the advised tests': policies['follow the advised tests'](start(), ranking),
      'replace the module at once': policies['replace the module at once'](start()),
      'replace the likeliest part': policies['replace the likeliest part'](start(), ranking),
      'test everything': policies['test everything'](start(), ranking),
    },
  };
};
