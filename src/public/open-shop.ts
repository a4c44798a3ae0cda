import { dirname, resolve } from 'node:path';
import { assess } from '../core/assess.ts';
import { layouts } from '../core/job.ts';
import { type Problem, wholeFile } from '../input/problem.ts';
import { decode } from '../input/yaml/decode.ts';
import { jobNameOf } from '../shell/job-source.ts';
import { assessAt } from '../shell/judge-file.ts';
import { type Library, openLibrary } from '../shell/library.ts';
import { shippedRules } from '../shell/package-folder.ts';
import { type ReadText, readJobText } from '../shell/read-job-text.ts';
import { resolvePacks } from '../shell/resolve-packs.ts';
import { type FoundShop, shopFileName, shopOf } from '../shell/shop-file.ts';
import { worksheetOf } from './render.ts';
import type { Job, JobOptions, ReadJob, Shop, ShopOptions } from './types.ts';

const bytesOf = (text: string | Uint8Array): Uint8Array =>
  typeof text === 'string' ? new TextEncoder().encode(text) : text;

/** An instant in milliseconds. */
const instantOf = (date: Date, what: string): number => {
  const at = date.getTime();
  if (Number.isNaN(at)) throw new RangeError(`${what} is no date`);
  return at;
};

const jobOf = (read: ReadText, file: string, { shop }: FoundShop): Job | null => {
  const { job, prepared } = read;
  if (job === null) return null;
  return {
    id: job.id,
    title: job.title,
    vehicle: job.vehicle.name,
    status: job.status,
    zone: job.zone,
    packs: prepared.refs,
    assess: (asOf) => {
      const at = instantOf(asOf, 'asOf');
      const sheet = assessAt(read, () => at, assess);
      return 'code' in sheet
        ? { worksheet: null, problems: [sheet] }
        : { worksheet: worksheetOf(sheet, file, shop), problems: [] };
    },
  };
};

const readAgainst = async (
  text: string | Uint8Array,
  { file = 'job.yaml', zone = 'UTC', savedAt = new Date() }: JobOptions,
  found: FoundShop,
  library: Library,
): Promise<ReadJob> => {
  if (found.problems.length > 0) return { job: null, problems: found.problems };
  const decoded = decode(bytesOf(text));
  if ('problem' in decoded) return { job: null, problems: [decoded.problem] };
  const saved = instantOf(savedAt, 'savedAt');
  const source = { name: jobNameOf(file), zone: () => zone, savedAt: () => saved };
  const read = await readJobText(decoded.text, found, library, source);
  const job = jobOf(read, file, found);
  return job === null ? { job, problems: read.problems } : { job, problems: [] };
};

/** Problems of names that stand in no text. */
const namesWrong = async (names: readonly string[], library: Library): Promise<readonly Problem[]> => {
  const { flaws, problems } = await resolvePacks(
    names.map((ref) => ({ ref, at: 0 })),
    library,
  );
  return [...flaws.map(({ code, message, hint }) => wholeFile(code, message, hint)), ...problems];
};

/** A shop as whoever uses the package sees it. */
export const openShopOf = ({ text = '', file = shopFileName, folders = [] }: ShopOptions): Shop => {
  const found = shopOf(bytesOf(text), resolve(file), dirname(resolve(file)));
  const own = folders.map((folder) => resolve(folder));
  const library = openLibrary([...own, ...found.folders, shippedRules()], layouts);
  return {
    problems: found.problems,
    packs: async () =>
      [...(await library.shelves()).values()].flat().map(({ id, version }) => ({ id, version })),
    preparePacks: (names) => namesWrong(names, library),
    readJob: (job, options = {}) => readAgainst(job, options, found, library),
  };
};
