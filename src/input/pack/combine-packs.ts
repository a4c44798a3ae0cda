import type { Disagreement } from '../../core/prepare/disagreements.ts';
import type { LocatedFlaw } from '../problem.ts';

/** Where the job names each pack, by id; what is wrong with a pair is told at the later of the two. */
export type PackPlaces = ReadonlyMap<string, number>;

const most = 4;

const listed = (names: readonly string[]): string =>
  names.length <= most
    ? names.join(', ')
    : `${names.slice(0, most).join(', ')} and ${names.length - most} more`;

const disagreementFlaw = (disagreement: Disagreement, places: PackPlaces, at: number): LocatedFlaw => {
  switch (disagreement.kind) {
    case 'both-define': {
      const { what, id, first, second } = disagreement;
      return {
        code: 'conflicting-packs',
        at: places.get(second) ?? 0,
        message: `${first} and ${second} both define the ${what} ${id}`,
        hint: 'leave one of the two packs out',
      };
    }
    case 'differ': {
      const { on, first, second } = disagreement;
      return {
        code: 'conflicting-packs',
        at: places.get(second) ?? 0,
        message: `${first} and ${second} disagree on the ${on}`,
        hint: 'use versions that fit together, or leave one out',
      };
    }
    case 'mixed-majors': {
      const { doubles, differences, first, second, pack } = disagreement;
      const parts = [
        ...(doubles.length > 0 ? [`both define the ${listed(doubles)}`] : []),
        ...(differences.length > 0 ? [`disagree on the ${listed(differences)}`] : []),
      ];
      return {
        code: 'conflicting-packs',
        at: places.get(pack) ?? 0,
        message: `${first} and ${second} ${parts.join(', and ')}`,
        hint: 'use one major of both: cornerwise packs upgrade FILE takes a file to the newest',
      };
    }
    case 'step-cycle': {
      const message = `steps of these packs wait for one another: ${disagreement.steps.join(' → ')}`;
      return { code: 'step-cycle', at, message, hint: 'use versions of the packs that fit together' };
    }
    case 'no-packs':
    case 'no-checks': {
      const message =
        disagreement.kind === 'no-packs'
          ? 'this job names no rule packs'
          : 'the packs of this job hold no check to judge by';
      return { code: 'no-checks', at, message, hint: 'add one such as position-signals@1 to packs' };
    }
  }
};

/**
 * Puts what is wrong with a job's packs taken together into words, with its places in the job file.
 *
 * @param at where the job lists its packs
 */
export const combinedFlaws = (
  disagreements: readonly Disagreement[],
  places: PackPlaces,
  at: number,
): LocatedFlaw[] => disagreements.map((one) => disagreementFlaw(one, places, at));
