import { join } from 'node:path';
import { assess, assessBriefly } from '../../../src/core/assess.ts';
import type { Job } from '../../../src/core/job.ts';
import { type PreparedPacks, preparePacks } from '../../../src/core/prepare/prepared-packs.ts';
import type { BriefWorksheet, Worksheet } from '../../../src/core/worksheet.ts';
import { openJob, readJob } from '../../../src/input/job/read-job.ts';
import { emptyShop } from '../../../src/input/job/shop.ts';
import { newestPacks, openLibrary } from '../../../src/shell/library.ts';

/** What an hour of work costs in the shop of the fleet, in its currency. */
export const labourRate = 85;

/** After all that is typed and tested. */
const asOf = Date.UTC(2026, 2, 3, 20);

/** The newest version of every shipped pack. */
export const shippedPacks = async (root: string): Promise<PreparedPacks> =>
  preparePacks(await newestPacks(openLibrary([join(root, 'rules')])));

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

/** The same without tests to do next, which take most of the time. */
export const weighText = (text: string, packs: PreparedPacks): BriefWorksheet =>
  assessBriefly(readText(text, packs), packs, asOf);
