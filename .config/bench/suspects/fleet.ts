import type { PreparedPacks } from '../../../src/core/prepare/prepared-packs.ts';
import type { BriefWorksheet } from '../../../src/core/worksheet.ts';
import type { Bench } from './answers/bench.ts';
import { judgeText, weighText } from './judging.ts';
import { drawFrom } from './model/draw.ts';
import { driverOf, recentWorkOf } from './model/driver.ts';
import { instrumentsFrom } from './model/instruments.ts';
import { drawMember, type Member } from './model/member.ts';
import {
  type Case,
  followAdvice,
  type Outcome,
  replaceLikeliest,
  replaceModule,
  testEverything,
} from './policies.ts';
import { judge, type Verdict } from './score.ts';
import { jobText } from './sheet/job-text.ts';
import type { Depth } from './sheet/keyed.ts';
import { habitsFrom, visitOf } from './sheet/shot.ts';

/** The policies that are held against each other, in the order of the report. */
export const policies = {
  'follow the advised tests': followAdvice,
  'replace the module at once': replaceModule,
  'replace the likeliest part': replaceLikeliest,
  'test everything': testEverything,
} as const;
export type Policy = keyof typeof policies;

/** Streams of one vehicle: itself, its technician, what a search finds, what is told beside the readings. */
const streams = 4;

/** The vehicle of a number, and its technician with instruments and luck, as at the beginning of the visit. */
export const benchOf = (seed: number, number: number): Bench => {
  const member = drawMember(number, drawFrom(seed, streams * number));
  const technician = drawFrom(seed, streams * number + 1);
  const habits = habitsFrom(technician);
  return {
    member,
    visit: visitOf(member.car, instrumentsFrom(technician, member.car), habits),
    luck: drawFrom(seed, streams * number + 2),
  };
};

/** The job file of a vehicle of the fleet; the same technician types both depths. */
export const textOf = (seed: number, number: number, depth: Depth): string => {
  const { member, visit } = benchOf(seed, number);
  const driver = drawFrom(seed, streams * number + 3);
  const told = { says: driverOf(member, driver), work: recentWorkOf(member, driver) };
  return jobText(number, visit, told, depth);
};

/** What one vehicle came to. */
export interface Result {
  readonly number: number;
  readonly member: Member;
  /** Null for a healthy one. */
  readonly full: Verdict | null;
  readonly first: Verdict | null;
  /** `position-signals/pattern look`, of what is out on a healthy one. */
  readonly falseAlarms: readonly string[];
  /** Null where the policies are not tried, and where the first look shows nothing. */
  readonly costs: Readonly<Record<Policy, Outcome>> | null;
}

const alarms = ({ findings }: BriefWorksheet): string[] =>
  findings
    .filter(({ verdict, weight, current }) => verdict === 'out' && weight !== 'note' && current)
    .map(({ check, weight }) => `${check} ${weight}`);

const tryPolicies = (seed: number, number: number, packs: PreparedPacks, text: string): Result['costs'] => {
  const { ranking } = judgeText(text, packs);
  if (!ranking) return null;
  // Every policy meets the same luck.
  const start = (): Case => ({ text, packs, bench: benchOf(seed, number) });
  return {
    'follow the advised tests': followAdvice(start(), ranking),
    'replace the module at once': replaceModule(start()),
    'replace the likeliest part': replaceLikeliest(start(), ranking),
    'test everything': testEverything(start(), ranking),
  };
};

/**
 * Draws one vehicle, has it typed and judged, and lets each policy have a go at it.
 *
 * @param walked whether the policies are tried, which takes most of the time
 */
export const tryVehicle = (seed: number, number: number, packs: PreparedPacks, walked: boolean): Result => {
  const { member } = benchOf(seed, number);
  const text = textOf(seed, number, 'first look');
  const full = weighText(textOf(seed, number, 'full sheet'), packs);
  const first = weighText(text, packs);
  if (member.troubles.length === 0)
    return {
      number,
      member,
      full: null,
      first: null,
      costs: null,
      falseAlarms: [...new Set([...alarms(full), ...alarms(first)])],
    };
  return {
    number,
    member,
    full: judge(member, full.diagnosis?.weighed ?? null),
    first: judge(member, first.diagnosis?.weighed ?? null),
    falseAlarms: [],
    costs: walked && first.diagnosis ? tryPolicies(seed, number, packs, text) : null,
  };
};
