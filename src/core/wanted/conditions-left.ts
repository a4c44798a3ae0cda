import type { Finding } from '../finding.ts';
import type { ConditionName, Snapshot } from '../job.ts';
import { parseKey } from '../key.ts';
import type { PreparedPacks } from '../prepare/prepared-packs.ts';
import { staleSince } from '../steps/staleness.ts';
import type { BriefWorksheet } from '../worksheet.ts';
import type { WantedCondition } from './circumstances.ts';

/** A snapshot whose readings cannot be judged, or not well, until somebody states how they were taken. */
export interface ConditionsLeft {
  readonly snapshot: Snapshot;
  readonly conditions: readonly WantedCondition[];
}

/** The condition that a finding wants stated. */
const wantedBy = ({ missing, verdict, remarks }: Finding): WantedCondition | null => {
  if (missing?.why === 'condition-not-stated') return { name: missing.condition, wants: missing.wants };
  if (missing?.why === 'rest-not-stated') return { name: 'rested', wants: null };
  if (missing?.why === 'sleep-not-stated') return { name: 'asleep', wants: null };
  const isOpen = verdict === 'too-close' && remarks.some(({ kind }) => kind === 'temperature-assumed');
  return isOpen ? { name: 'air', wants: null } : null;
};

const states = ({ conditions }: Snapshot, name: string): boolean => {
  const { words, ...quantities } = conditions;
  const quantity = (quantities as Readonly<Record<string, unknown>>)[name];
  return words[name as ConditionName] !== undefined || (quantity !== null && quantity !== undefined);
};

/** The newest snapshot that a finding would judge, if nothing was done since that its readings depend on. */
const judgedIn = (
  { readIn, channels, snapshot }: Finding,
  { job }: BriefWorksheet,
  { channelById }: PreparedPacks,
): Snapshot | null => {
  const found =
    snapshot === null
      ? job.snapshots.findLast(
          (one) => readIn.includes(one.state) && channels.every((key) => one.readings.has(key)),
        )
      : job.snapshots.find(({ id }) => id === snapshot);
  if (!found || channels.length === 0) return null;
  return staleSince(job.log, channelById, channels, found.stamp.at) === null ? found : null;
};

/** What steps want stated wherever heights are read, of the newest snapshot with any. */
const wantedBySteps = (sheet: BriefWorksheet, { channelById }: PreparedPacks): ConditionsLeft[] => {
  const wants = sheet.steps
    .filter(({ state }) => state === 'ready' || state === 'waiting')
    .flatMap(({ because }) => because.flatMap((one) => (one.kind === 'conditions-wanted' ? one.wants : [])));
  const isCornered = (key: string): boolean => {
    const { base, corner } = parseKey(key);
    return corner !== null && channelById.has(base);
  };
  const snapshot = sheet.job.snapshots.findLast(({ readings }) => [...readings.keys()].some(isCornered));
  if (!snapshot || wants.length === 0) return [];
  const keys = [...snapshot.readings.keys()].filter(isCornered);
  if (staleSince(sheet.job.log, channelById, keys, snapshot.stamp.at) !== null) return [];
  const conditions = wants.map((want) => {
    const [name = '', ...word] = want.split(' ');
    return { name, wants: word.join(' ') };
  });
  return [{ snapshot, conditions }];
};

/**
 * Conditions that nobody stated and that a check needs to judge readings that are there, or to judge them well, by the
 * snapshot that they are of, the oldest first.
 */
export const conditionsLeft = (sheet: BriefWorksheet, prepared: PreparedPacks): ConditionsLeft[] => {
  const left = new Map<Snapshot, Map<string, WantedCondition>>();
  const add = (snapshot: Snapshot, condition: WantedCondition): void => {
    if (states(snapshot, condition.name)) return;
    const own = left.get(snapshot) ?? new Map<string, WantedCondition>();
    left.set(snapshot, own);
    if (!own.has(condition.name)) own.set(condition.name, condition);
  };
  for (const finding of sheet.findings) {
    const condition = finding.waived === null && finding.newest ? wantedBy(finding) : null;
    if (condition === null || !(finding.wanted || finding.snapshot !== null)) continue;
    const snapshot = judgedIn(finding, sheet, prepared);
    if (snapshot) add(snapshot, condition);
  }
  for (const { snapshot, conditions } of wantedBySteps(sheet, prepared)) {
    for (const condition of conditions) add(snapshot, condition);
  }
  return [...left]
    .map(([snapshot, conditions]) => ({ snapshot, conditions: [...conditions.values()] }))
    .sort((a, b) => a.snapshot.stamp.at - b.snapshot.stamp.at);
};
