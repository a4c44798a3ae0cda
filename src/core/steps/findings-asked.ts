import { counts, type Finding, findingsByCheck } from '../finding.ts';

/** Findings as facts ask for them: many facts ask of the same ones. */
export interface FindingsAsked {
  readonly all: readonly Finding[];
  /** In the order of all, by the check. */
  readonly of: (check: string) => readonly Finding[];
  /** Those that are out and count (`counts`). */
  readonly counting: readonly Finding[];
}

const none: readonly Finding[] = [];

/** Makes findings ready to be asked for. */
export const findingsAsked = (all: readonly Finding[]): FindingsAsked => {
  const byCheck = findingsByCheck(all);
  return { all, of: (check) => byCheck.get(check) ?? none, counting: all.filter(counts) };
};
