import type { LocatedFlaw } from '../problem.ts';

/** Where the shop file of a job was looked for, and where it was found. */
export interface ShopSearch {
  /** The folder of the job, in which the search begins; it goes on through every folder above. */
  readonly from: string;
  /** Where the shop file lies; null where there is none. */
  readonly path: string | null;
}

/**
 * What is wrong with a job for which neither its own file nor a shop file names packs.
 *
 * @param at where the job would list its packs
 */
export const noPacksNamed = ({ from, path }: ShopSearch, at: number): LocatedFlaw => {
  const elsewhere =
    path === null
      ? `there is no shop file (cornerwise.yaml) in ${from} or any folder above it`
      : `neither does the shop file ${path}`;
  const hint =
    path === null
      ? 'add packs: [position-signals@1] to the job, or write a shop file with that line in one of these folders'
      : 'add packs: [position-signals@1] to the job or to the shop file';
  return { code: 'no-checks', at, message: `this job names no rule packs, and ${elsewhere}`, hint };
};
