import { type Change, type DatedEnd, isJudged, type JudgedRow, type Row, type RowFinding } from './row.ts';

/** What comparing needs of a row of another night; a row of today has all of it. */
export type Earlier =
  | ({ readonly job: string } & Pick<
      JudgedRow,
      'status' | 'findings' | 'holdPoints' | 'steps' | 'ends' | 'waitsFor' | 'packs'
    >)
  | { readonly job: null; readonly problems: readonly { readonly code: string; readonly message: string }[] };

/** A finding's name from night to night: its check and subject in one state, whatever snapshot showed it. */
const nameOf = ({ id, state }: RowFinding): string => `${id}|${state ?? ''}`;

const placeOf = ({ title, id, state }: RowFinding): string => {
  const subject = id.slice(id.indexOf(':') + 1);
  return `${title} (${[subject, state].filter(Boolean).join(' ')})`;
};

const heavier = { hold: 0, look: 1, note: 2 } as const;

const verdictWords = { out: 'out', 'too-close': 'too close' } as const;

const findingChange = (before: RowFinding | undefined, now: RowFinding): string | null => {
  const said = `${placeOf(now)}: ${verdictWords[now.verdict]} ${now.weight}`;
  if (before === undefined) return now.waived === null ? `new ${said}` : `new ${said}, waived`;
  if (before.waived === null && now.waived !== null) return `${placeOf(now)}: now waived`;
  if (before.waived !== null && now.waived === null) return `${placeOf(now)}: no longer waived`;
  if (before.verdict !== now.verdict) return `${said}, was ${verdictWords[before.verdict]}`;
  if (before.weight === now.weight) return null;
  return `${said}, was ${heavier[before.weight] < heavier[now.weight] ? 'heavier' : 'lighter'}`;
};

const findingChanges = (before: readonly RowFinding[], now: readonly RowFinding[]): string[] => {
  const old = new Map(before.map((one) => [nameOf(one), one]));
  const still = new Set(now.map(nameOf));
  return [
    ...now.map((one) => findingChange(old.get(nameOf(one)), one)).filter((text) => text !== null),
    ...before.filter((one) => !still.has(nameOf(one))).map((one) => `gone: ${placeOf(one)}`),
  ];
};

const pointChanges = (before: JudgedRow['holdPoints'], now: JudgedRow['holdPoints']): string[] => {
  const old = new Map(before.map(({ id, clear }) => [id, clear]));
  return now
    .filter(({ id, clear }) => old.has(id) && old.get(id) !== clear)
    .map(({ title, clear }) => `${title}: ${clear ? 'now clear' : 'no longer clear'}`);
};

const stepChanges = (before: JudgedRow['steps'], now: JudgedRow['steps']): string[] => {
  const old = new Map(before.map((step) => [step.id, step.state]));
  const still = new Set(now.map(({ id }) => id));
  const started = now.flatMap(({ id, title, state }) => {
    const was = old.get(id);
    if (was === state) return [];
    if (was === undefined) return [`new step: ${title}`];
    return [state === 'ready' ? `now ready: ${title}` : `waits again: ${title}`];
  });
  const settled = before.filter(({ id }) => !still.has(id)).map(({ title }) => `settled: ${title}`);
  return [...started, ...settled];
};

const endName = ({ kind, what, at }: DatedEnd): string => `${kind}|${what}|${at}`;

const endTitle = ({ kind, what }: DatedEnd): string =>
  kind === 'waiver' ? `the waiver of ${what}` : `access for ${what}`;

const endChanges = (before: readonly DatedEnd[], now: readonly DatedEnd[]): string[] => {
  const old = new Map(before.map((end) => [endName(end), end]));
  return now.flatMap((end) => {
    const was = old.get(endName(end));
    if (end.ended && !was?.ended) return [`${endTitle(end)} has ended`];
    if (end.soon && !was?.soon) return [`${endTitle(end)} is about to end`];
    return [];
  });
};

const waitChanges = (before: readonly string[], now: readonly string[]): string[] => [
  ...now.filter((one) => !before.includes(one)).map((one) => `now waits for ${one}`),
  ...before.filter((one) => !now.includes(one)).map((one) => `no longer waits for ${one}`),
];

/** A pack that changed under its version is the first thing to know of whatever else changed. */
const packChanges = (before: JudgedRow['packs'], now: JudgedRow['packs']): string[] =>
  now
    .filter(({ id, version, sha256 }) =>
      before.some((was) => was.id === id && was.version === version && was.sha256 !== sha256),
    )
    .map(({ id, version }) => `pack ${id} changed under its version ${version}`);

const problemNames = (problems: readonly { readonly code: string; readonly message: string }[]): string =>
  problems
    .map(({ code, message }) => `${code} ${message}`)
    .sort()
    .join('\n');

/**
 * What changed in a job since another night, in words, the heaviest first. Findings are matched by check, subject and
 * state, so that moved lines, snapshots in another order and readings taken again change nothing of themselves.
 */
export const changeOf = (before: Earlier | null, now: Row): Change => {
  if (before === null) return { kind: 'new', says: [] };
  if (!isJudged(now)) {
    if (before.job !== null) return { kind: 'changed', says: ['could be judged before'] };
    const same = problemNames(before.problems) === problemNames(now.problems);
    return same ? { kind: 'unchanged', says: [] } : { kind: 'changed', says: ['other mistakes than before'] };
  }
  if (before.job === null) return { kind: 'changed', says: ['can be judged again'] };
  const says = [
    ...packChanges(before.packs, now.packs),
    ...findingChanges(before.findings, now.findings),
    ...endChanges(before.ends, now.ends),
    ...pointChanges(before.holdPoints, now.holdPoints),
    ...(before.status === now.status ? [] : [`status ${now.status}, was ${before.status}`]),
    ...waitChanges(before.waitsFor, now.waitsFor),
    ...stepChanges(before.steps, now.steps),
  ];
  return { kind: says.length > 0 ? 'changed' : 'unchanged', says };
};
