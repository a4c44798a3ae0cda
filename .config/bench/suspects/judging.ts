import { join } from 'node:path';
import { assess } from '../../../src/core/assess.ts';
import type { Job } from '../../../src/core/job.ts';
import type { PreparedPacks } from '../../../src/core/prepare/prepared-packs.ts';
import type { Worksheet } from '../../../src/core/worksheet.ts';
import { openJob, readJob } from '../../../src/input/job/read-job.ts';
import { emptyShop } from '../../../src/input/job/shop.ts';
import { openLibrary } from '../../../src/shell/library.ts';
import { resolvePacks } from '../../../src/shell/resolve-packs.ts';

/** What an hour of work costs in the shop of the fleet, in its currency. */
export const labourRate = 85;

/** After all that is typed and tested. */
const asOf = Date.UTC(2026, 2, 3, 20);

/** The packs whose checks the suspects go by, as a job names them. */
const packRefs = [
  'position-signals@1',
  'supply-charging@1',
  'air-supply@1',
  'module-replacement@1',
  'handover@1',
  'corner-suspects@1',
];

/** The shipped packs of the edition that the suspects are written for. */
export const shippedPacks = async (root: string): Promise<PreparedPacks> => {
  const refs = packRefs.map((ref) => ({ ref, at: 0 }));
  const { prepared, flaws, problems } = await resolvePacks(refs, openLibrary([join(root, 'rules')]));
  if (flaws.length + problems.length > 0) throw new Error(JSON.stringify([...flaws, ...problems]));
  return prepared;
};

/** Reads a job from its text as the program does; a text with mistakes is a mistake of the simulation. */
export const readText = (text: string, packs: PreparedPacks): Job => {
  const shop = { ...emptyShop, labourRate, currency: 'EUR' };
  const context = { prepared: packs, shop, elsewhere: new Map<string, string>(), sameDefinition: () => true };
  const { job, problems } = readJob(openJob(text), context);
  if (!job || problems.length > 0) throw new Error(`${JSON.stringify(problems)}\n${text}`);
  return job;
};

/** Judges a job from its text, by the program's own reader and core. */
export const judgeText = (text: string, packs: PreparedPacks): Worksheet =>
  assess(readText(text, packs), packs, asOf);
