import { assess } from '../../src/core/assess.ts';
import type { Finding } from '../../src/core/finding.ts';
import type { Equipment, Job } from '../../src/core/job.ts';
import type { Pack } from '../../src/core/pack.ts';
import { preparePacks } from '../../src/core/prepare/prepared-packs.ts';
import type { Worksheet } from '../../src/core/worksheet.ts';
import type { WorksheetHoldPoint, WorksheetStep } from '../../src/core/worksheet-parts.ts';
import { openJob, readJob } from '../../src/input/job/read-job.ts';
import { readTime } from '../../src/input/job/read-time.ts';
import { emptyShop, type Shop } from '../../src/input/job/shop.ts';
import { readPack } from '../../src/input/pack/read-pack.ts';

/** What a small pack of a test need not repeat: its head, and the channels and components of an invented vehicle. */
const usualPack: Readonly<Record<string, string>> = {
  pack: 'pack: bench',
  version: 'version: 1.0.0',
  title: 'title: Pack of a test',
  'minutes-basis': 'minutes-basis: {kind: from-memory}',
  components: `components:
  - {id: control-module, title: control module}
  - {id: reference-circuit, title: reference circuit}
  - {id: sensor, per: corner, title: position sensor}
  - {id: battery, title: battery}
  - {id: compressor, title: compressor}
  - {id: air-spring, per: corner, title: air spring}`,
  channels: `channels:
  - {id: position, per: corner, title: position signal, quantity: voltage, unit: V, by: module, depends: [control-module, reference-circuit, sensor], minutes: 2}
  - {id: plug-signal, per: corner, title: signal at the plug, quantity: voltage, unit: V, by: meter, depends: [reference-circuit, sensor]}
  - {id: reference, per: either, title: reference, quantity: voltage, unit: V, by: meter, depends: [reference-circuit]}
  - {id: supply, title: supply, quantity: voltage, unit: V, by: module, depends: [control-module, battery], minutes: 3}
  - {id: battery, title: battery, quantity: voltage, unit: V, by: meter, depends: [battery]}
  - {id: battery-temperature, title: battery temperature, quantity: temperature, unit: °C, by: thermometer, depends: []}
  - {id: tank, title: tank pressure, quantity: pressure, unit: psi, by: gauge, depends: [compressor]}
  - {id: spring, per: corner, title: spring pressure, quantity: pressure, unit: psi, by: gauge, depends: [air-spring]}`,
};

/** The head of a job that a test need not repeat. */
const usualJob: Readonly<Record<string, string>> = {
  worksheet: 'worksheet: 1',
  job: 'job: S07-0001',
  title: 'title: Job of a test',
  opened: 'opened: 2026-03-02T08:00',
  zone: 'zone: UTC',
  status: 'status: open',
  vehicle: 'vehicle: {name: Shuttle 7, layout: four-corner-air}',
};

const withUsual = (body: string, usual: Readonly<Record<string, string>>): string => {
  const own = new Set([...body.matchAll(/^([a-z-]+):/gmu)].map(([, key]) => key));
  const added = Object.entries(usual).filter(([key]) => !own.has(key));
  return [...added.map(([, text]) => text), body].join('\n');
};

const shown = (problems: readonly { readonly code: string; readonly message: string }[]): string =>
  problems.map((problem) => JSON.stringify(problem)).join('\n');

/** Problems of a pack text, the usual parts added: for the tests of what a kind refuses. */
export const packProblems = (body: string): string[] =>
  readPack(withUsual(body, usualPack), 'test.yaml', '').problems.map(({ code }) => code);

/** A pack from its text; the head, components and channels that it leaves out are the usual ones. */
export const packOf = (body: string): Pack => {
  const { pack, problems } = readPack(withUsual(body, usualPack), 'test.yaml', 'sha');
  if (!pack) throw new Error(`the test's pack has problems:\n${shown(problems)}`);
  return pack;
};

/** Equipment of the shop that a test judges in; null is a shop that names none. */
export const shopWith = (equipment: readonly Equipment[] | null): Shop => ({ ...emptyShop, equipment });

/** A job from its text, against packs; the head that it leaves out is the usual one. */
export const jobOf = (
  body: string,
  packs: readonly Pack[],
  shop: Shop | null = null,
  sameDefinition: (check: string, version: string) => boolean | null = () => true,
): Job => {
  const around = {
    prepared: preparePacks(packs, []),
    shop,
    elsewhere: new Map<string, string>(),
    sameDefinition,
  };
  const { job, problems } = readJob(openJob(withUsual(body, usualJob)), around);
  if (!job) throw new Error(`the test's job has problems:\n${shown(problems)}`);
  return job;
};

/** The instant of a time as typed, in UTC unless it says otherwise. */
export const instant = (text: string): number => {
  const time = readTime(text, 'UTC');
  if (!time.ok) throw new Error(time.message);
  return time.stamp.at;
};

/** When a job is judged unless its test says otherwise: after all that the tests log. */
export const evening = '2026-03-02T20:00';

/** Reads a pack (or several) and a job as text, and judges. */
export const judge = (
  packs: string | readonly string[],
  jobBody: string,
  asOf: string = evening,
  shop: Shop | null = null,
): Worksheet => {
  const read = (typeof packs === 'string' ? [packs] : packs).map(packOf);
  return assess(jobOf(jobBody, read, shop), preparePacks(read, []), instant(asOf));
};

const only = <T>(found: readonly T[], what: string): T => {
  const [one] = found;
  if (one === undefined || found.length > 1)
    throw new Error(`${found.length} of ${what}, where one is wanted`);
  return one;
};

/** The one finding of a check on a subject; of a subject's several snapshots name which. */
export const findingOf = (sheet: Worksheet, check: string, subject: string, snapshot?: string): Finding =>
  only(
    sheet.findings.filter(
      (one) =>
        one.check === `bench/${check}` &&
        one.subject === subject &&
        (snapshot === undefined || one.snapshot === snapshot),
    ),
    `${check}:${subject}`,
  );

export const stepOf = (sheet: Worksheet, id: string): WorksheetStep =>
  only(
    sheet.steps.filter((step) => step.id === id || step.id === `bench/${id}`),
    `step ${id}`,
  );

export const holdPointOf = (sheet: Worksheet, id: string): WorksheetHoldPoint =>
  only(
    sheet.holdPoints.filter((point) => point.id === id),
    `hold point ${id}`,
  );

/** `out hold`, `within`, `too-close look`, `not-taken`: what most tests ask of a finding. */
export const said = ({ verdict, weight }: Finding): string =>
  verdict === 'not-taken' ? verdict : `${verdict} ${weight}`;

/** One key-on snapshot with these readings, for the many tests that need no more. */
export const keyOn = (readings: string, more = ''): string => `snapshots:
  - id: as-found
    at: 2026-03-02T08:40
    state: key-on
    readings: ${readings}
${more}`;
