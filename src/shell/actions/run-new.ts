import { basename, dirname, resolve } from 'node:path';
import { layouts } from '../../core/job.ts';
import { type FieldContext, type FieldName, fieldNames, type Values } from '../../input/fresh/fields.ts';
import { freshJobText } from '../../input/fresh/job-text.ts';
import { senseWords } from '../../input/fresh/sensor-sense.ts';
import { titleOf } from '../../input/job/title-of.ts';
import { writtenTime } from '../../input/typed/typed-time.ts';
import { clean } from '../../report/clean.ts';
import { afterChange } from '../../report/entry/after.ts';
import { writtenText } from '../../report/entry/written.ts';
import { wrap } from '../../report/sheet/grid.ts';
import type { Style } from '../../report/style.ts';
import { createFile } from '../disk/create-file.ts';
import { exists, isFolder } from '../disk/on-disk.ts';
import { askRest, missing, readGiven } from '../fresh/gather.ts';
import { reservedName } from '../fresh/reserved-name.ts';
import { schemaPlace } from '../fresh/schema-place.ts';
import { jobNameOf } from '../job-source.ts';
import { type Library, newestRefs, openLibrary } from '../library.ts';
import { shippedRules } from '../package-folder.ts';
import { type ReadText, readJobText } from '../read-job-text.ts';
import { resolvePacks } from '../resolve-packs.ts';
import { trouble, writeTrouble } from '../save/change-job.ts';
import type { Shell } from '../shell.ts';
import { type FoundShop, shopFileName, shopFor } from '../shop-file.ts';
import { type ChangeFlags, nowIn, refuse, refused, refuseFile, sheetOf, styleFor } from './changing.ts';

/** What `new` is called with. */
export type NewFlags = ChangeFlags & Readonly<Record<string, unknown>>;

const camelCase = (name: string): string =>
  name.replace(/-(\w)/gu, (_, letter: string) => letter.toUpperCase());

/** What was given as options, by field. */
const givenIn = (flags: NewFlags): Values => {
  const given: Partial<Record<FieldName, string>> = {};
  for (const name of fieldNames) {
    const value = flags[camelCase(name)];
    if (typeof value === 'string') given[name] = value;
  }
  return given;
};

/** A file name as it can be typed into a shell. */
const quotedFile = (file: string): string => (/[^\w./\\:~-]/u.test(file) ? `"${file}"` : file);

/** The words of a fresh file from what was said and what the shop file says. */
const textFor = async (
  path: string,
  values: Values,
  found: FoundShop,
  library: Library,
  flags: NewFlags,
  shell: Shell,
): Promise<string> => {
  const zone = values.zone ?? found.shop?.zone ?? shell.io.zone;
  const shopPacks = found.packs.map(({ ref }) => ref);
  const own = values.packs?.split(',') ?? null;
  const vehicle = values.vehicle ?? '';
  const complaint = values.complaint ?? null;
  return freshJobText({
    job: values.job ?? jobNameOf(path),
    title: values.title ?? (complaint === null ? `${vehicle}, no complaint stated` : titleOf(complaint)),
    opened: writtenTime(nowIn(zone, flags, shell), zone, true).text,
    zone,
    packs: own ?? (shopPacks.length > 0 ? null : await newestRefs(library)),
    vehicle,
    layout: layouts.find((one) => one === values.layout) ?? 'four-corner-air',
    system: values.system ?? null,
    battery: values.battery ?? null,
    charging: values.charging ?? null,
    sensorSignal: values['sensor-signal'] ?? null,
    sensorSense: senseWords.find((one) => one === values['sensor-sense']) ?? null,
    symptoms: values.symptoms ?? null,
    recentWork: values['recent-work'] ?? null,
    complaint,
    distance: values.distance ?? null,
    schema: await schemaPlace(dirname(path)),
    shopPacks,
  });
};

/** What the packs of a job that is still to be written know; nothing where they cannot be told, which comes later. */
const contextOf = async (given: Values, found: FoundShop, library: Library): Promise<FieldContext> => {
  const own = given.packs?.split(',').map((ref) => ({ ref, at: 0 }));
  const named = own ?? found.packs;
  const refs = named.length > 0 ? named : (await newestRefs(library)).map((ref) => ({ ref, at: 0 }));
  const { prepared, flaws, problems } = await resolvePacks(refs, library);
  return { components: flaws.length + problems.length > 0 ? null : prepared.components };
};

/** What was not given as options is asked for, unless vehicle and layout were; null with the reason told. */
const complete = async (
  given: Values,
  context: FieldContext,
  found: FoundShop,
  file: string,
  flags: NewFlags,
  shell: Shell,
): Promise<Values | null> => {
  if (given.vehicle !== undefined && given.layout !== undefined) return given;
  const style = styleFor(flags, found.shop, shell);
  const print = (text: string): void => shell.io.stdout.write(text);
  const prompter = shell.io.openPrompter();
  try {
    const rules = prompter.isTerminal
      ? 'Enter keeps what stands in brackets, else leaves it out; - leaves it out; Ctrl-D stops, and nothing is written.'
      : 'No terminal here: answers are read from standard input, a line each; an empty one keeps what stands in brackets, else leaves it out.';
    print(`${wrap(style.text(rules), style.options.width).join('\n')}\n`);
    const values = await askRest(given, context, { prompter, style, print });
    if (values !== null) return values;
    const lacks = missing(given).map(({ name }) => `--${name}`);
    const hint =
      lacks.length > 0 ? `give ${lacks.join(' and ')}, or answer the question` : 'answer the questions';
    refused(trouble('the answers ended too soon; nothing was written', hint), file, flags, shell);
    return null;
  } finally {
    prompter.close();
  }
};

/** What was written, with the head of its first sheet; how to go on, where no check concerns the vehicle yet. */
const reportOfNew = (
  file: string,
  written: string,
  read: ReadText,
  style: Style,
  flags: NewFlags,
  shell: Shell,
): string => {
  const sheet = sheetOf({ read }, nowIn(read.job?.zone ?? 'UTC', flags, shell));
  if (sheet !== null) return afterChange([written], null, sheet, file, style);
  const name = clean(quotedFile(file));
  return `${written}\n  cornerwise fill ${name}    asks for the readings\n  cornerwise check ${name}   judges them\n`;
};

/** `cornerwise new`: a fresh job file. */
export const makeNew = async (file: string, flags: NewFlags, shell: Shell): Promise<void> => {
  const path = resolve(shell.io.cwd, file);
  const stop = (message: string, hint: string): void =>
    void refused(trouble(message, hint), file, flags, shell);
  if (file === '-' || file.trim() === '')
    return stop('no file is named', 'name the file to write, such as s7.yaml');
  if (basename(path) === shopFileName) {
    return stop(`${shopFileName} is the name of a shop file`, 'choose another name');
  }
  const device = reservedName(path);
  if (device !== null)
    return stop(`${device} is the name of a device on Windows, never of a file`, 'choose another name');
  if (exists(path)) {
    return stop(`${file} is there already, and is never overwritten`, 'choose another name');
  }
  if (!isFolder(dirname(path))) return stop(`there is no folder ${dirname(file)}`, 'make it first');
  const found = await shopFor(dirname(path), shell.io);
  if (found.problems.length > 0) return refuseFile(file, found.problems, null, flags, shell);
  const own = flags.rules.map((folder) => resolve(shell.io.cwd, folder));
  const library = openLibrary([...own, ...found.folders, shippedRules()]);
  const options = givenIn(flags);
  const context = await contextOf(options, found, library);
  const { values: given, faults } = readGiven(options, context);
  if (faults.length > 0) return refuse(faults, flags, shell);
  const values = await complete(given, context, found, file, flags, shell);
  if (values === null) return;

  const text = await textFor(path, values, found, library, flags, shell);
  const read = await readJobText(text, found, library);
  if (read.problems.length > 0) return refuseFile(file, read.problems, found.shop, flags, shell);
  try {
    if (!(await createFile(path, text)))
      return stop(`${file} is there already, and is never overwritten`, 'choose another name');
  } catch (error) {
    refused(writeTrouble(error, file), file, flags, shell);
    return;
  }
  if (flags.quiet) return;
  const style = styleFor(flags, found.shop, shell);
  const written = writtenText(
    `${file}: ${values.vehicle}, ${values.layout ?? layouts[0]}, written`,
    (['symptoms', 'recent-work'] as const).flatMap((name) => {
      const value = values[name];
      return value === undefined ? [] : [[name, value] as const];
    }),
    style,
  );
  shell.io.stdout.write(reportOfNew(file, written, read, style, flags, shell));
};
