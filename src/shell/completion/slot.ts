import type { Pack } from '../../core/pack.ts';
import type { Wanted } from './candidate.ts';
import type { Names } from './names.ts';
import type { Place } from './place.ts';

/** Tells what may stand in one place of a command. */
export type Slot = (place: Place, names: Names) => Promise<Wanted>;

/** The rule folders that a line names. */
export const rulesOf = ({ options }: Place): string[] =>
  options.flatMap(({ flag, value }) => (flag === '--rules' && value !== null ? [value] : []));

/** The packs of the job that a line names first. */
export const packsOf = (place: Place, names: Names): Promise<readonly Pack[]> =>
  names.packsOf(place.given[0] ?? '', rulesOf(place));
