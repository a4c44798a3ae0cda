import type { Finding } from '../finding.ts';
import { type Instant, type Job, type State, states, workVerbs } from '../job.ts';
import { parseKey } from '../key.ts';
import type { Channel, Pack } from '../pack.ts';
import type { PreparedPacks } from '../prepare/prepared-packs.ts';
import { isIn, windowOf } from '../steps/log-entries.ts';
import { wantedByState } from '../steps/readings-wanted.ts';
import type { Reason, WorksheetStep } from '../worksheet-parts.ts';
import { type WantedCondition, wantedConditions } from './circumstances.ts';
import { tapeWanted } from './tape-wanted.ts';

/** What the packs still want read in one state of the vehicle, in the order in which it is easiest to take. */
export interface StillToTake {
  readonly state: State;
  /** Worked out when it is asked for: checks are judged for it. */
  readonly conditions: readonly WantedCondition[];
  readonly lamp: boolean;
  /** Channel keys, those of one instrument together. */
  readonly readings: readonly string[];
  readonly codes: boolean;
  /** Ids of outstanding work that would only make these readings stale again. */
  readonly waitsFor: readonly string[];
}

/** What of a worksheet tells which readings are wanted. */
export interface SheetSoFar {
  readonly job: Job;
  readonly asOf: Instant;
  readonly findings: readonly Finding[];
  readonly steps: readonly WorksheetStep[];
}

/** Nobody changes instruments more often than needed: the scan session first, then what is carried around. */
const instruments = ['module', 'meter', 'gauge', 'tape', 'thermometer'];

const byInstrument = (keys: Iterable<string>, channels: ReadonlyMap<string, Channel>, job: Job): string[] => {
  const order = [...channels.keys()];
  const place = (key: string): readonly number[] => {
    const { base, corner } = parseKey(key);
    const instrument = instruments.indexOf(channels.get(base)?.by ?? '');
    const at = corner === null ? -1 : job.vehicle.fitted.indexOf(corner);
    return [instrument < 0 ? instruments.length : instrument, order.indexOf(base), at];
  };
  return [...keys].sort((a, b) => {
    const [first, second] = [place(a), place(b)];
    return first.map((part, index) => part - (second[index] ?? 0)).find((away) => away !== 0) ?? 0;
  });
};

/**
 * A channel that is read once for the vehicle or at corners is wanted in one of the two ways, since a file has one or the
 * other: at corners where it was read there before, else once.
 */
const inOneWay = (keys: readonly string[], { snapshots }: Job): string[] => {
  const atCorners = (base: string): boolean =>
    snapshots.some(({ readings }) =>
      [...readings.keys()].some((key) => parseKey(key).base === base && parseKey(key).corner !== null),
    );
  return keys.filter((key) => {
    const { base, corner } = parseKey(key);
    const both =
      corner === null
        ? keys.some((one) => parseKey(one).corner !== null && parseKey(one).base === key)
        : keys.includes(base);
    return !both || (corner === null) !== atCorners(base);
  });
};

/** Reasons of steps that a reading or a code list could answer now. */
const openReasons = ({ steps, job, asOf }: SheetSoFar): Reason[] =>
  steps
    .filter(({ state }) => state === 'ready' || state === 'waiting')
    .flatMap(({ because }) => [...because])
    .filter(
      (reason) =>
        (reason.kind !== 'not-taken' && reason.kind !== 'no-code-list') ||
        (!reason.tooLate && isIn(asOf + 1, windowOf(job.log, reason.mark))),
    );

/** What the checks of a state judge at all, for a step that wants that state read and does not say what of it. */
const usualKeys = (findings: readonly Finding[], state: State): string[] => [
  ...new Set(
    findings
      .filter(
        ({ readIn, wanted, limits, missing }) =>
          readIn.includes(state) && wanted && (limits !== null || missing !== null),
      )
      .flatMap(({ channels }) => [...channels]),
  ),
];

/** Outstanding work among the steps that a step waits for: what is read before it would be stale after it. */
const workAhead = ({ waitsFor }: WorksheetStep, packs: readonly Pack[]): string[] => {
  const works = packs
    .flatMap(({ steps }) => steps)
    .filter(({ answeredBy }) =>
      answeredBy.some(({ did }) => did.some((verb) => verb === 'work' || workVerbs.includes(verb))),
    )
    .map(({ id }) => id);
  return waitsFor.filter((id) => works.includes(id));
};

/** The states that steps want read and no check asks for, each with the work that all of those steps wait for. */
const statesOfSteps = (sheet: SheetSoFar, packs: readonly Pack[]): Map<State, readonly string[]> => {
  const byState = new Map<State, readonly string[]>();
  for (const step of sheet.steps) {
    const waits = workAhead(step, packs);
    for (const reason of openReasons({ ...sheet, steps: [step] })) {
      if (reason.kind !== 'not-taken') continue;
      for (const state of states.filter((one) => reason.states.includes(one))) {
        const before = byState.get(state);
        const free = waits.length === 0 || before?.length === 0;
        byState.set(state, free ? [] : [...new Set([...(before ?? []), ...waits])]);
      }
    }
  }
  return byState;
};

interface Keys {
  readonly byState: ReadonlyMap<State, ReadonlySet<string>>;
  /** Work that readings wait for which only steps ask for, by state. */
  readonly waits: ReadonlyMap<State, readonly string[]>;
}

/** What readings would settle, by state: what checks miss, what work made stale, and the lamp among both. */
const keysByState = (
  sheet: SheetSoFar,
  findings: readonly Finding[],
  packs: readonly Pack[],
  channels: ReadonlyMap<string, Channel>,
): Keys => {
  const byState = new Map<State, Set<string>>();
  const at = (state: State): Set<string> => {
    const keys = byState.get(state) ?? new Set<string>();
    byState.set(state, keys);
    return keys;
  };
  for (const [state, { missing, stale }] of wantedByState(findings)) {
    for (const key of [...missing, ...stale]) at(state).add(key);
  }
  const waits = new Map<State, readonly string[]>();
  for (const [state, works] of statesOfSteps(sheet, packs)) {
    if ((byState.get(state)?.size ?? 0) > 0) continue;
    for (const key of usualKeys(findings, state)) if (channels.has(parseKey(key).base)) at(state).add(key);
    waits.set(state, works);
  }
  return { byState, waits };
};

const wantsCodes = (sheet: SheetSoFar, findings: readonly Finding[]): boolean =>
  findings.some(
    ({ missing, stale, newest, kind, wanted, waived }) =>
      wanted &&
      waived === null &&
      (missing?.why === 'no-code-list' || (stale && newest && kind === 'stored-codes')),
  ) || openReasons(sheet).some(({ kind }) => kind === 'no-code-list');

/** `floor level` of a step that wants conditions stated where heights are read. */
const statedByStep = (sheet: SheetSoFar, keys: ReadonlySet<string>): WantedCondition[] => {
  if (![...keys].some((key) => parseKey(key).corner !== null)) return [];
  return openReasons(sheet).flatMap((reason) =>
    reason.kind === 'conditions-wanted'
      ? reason.wants.map((want) => {
          const [name = '', ...word] = want.split(' ');
          return { name, wants: word.join(' ') };
        })
      : [],
  );
};

const merged = (...lists: readonly (readonly WantedCondition[])[]): WantedCondition[] => {
  const byName = new Map<string, WantedCondition>();
  for (const one of lists.flat()) if (!byName.has(one.name)) byName.set(one.name, one);
  return [...byName.values()];
};

/**
 * Everything that the packs still want read, state by state: key off first, then key-on, cranking, running, driving.
 *
 * @param prepared the packs that the sheet was made with
 * @param inTest true to ask, too, for what only a test wants
 */
export const stillToTake = (sheet: SheetSoFar, prepared: PreparedPacks, inTest = false): StillToTake[] => {
  const { packs, channelById: channels } = prepared;
  const findings = inTest ? sheet.findings.map((one) => ({ ...one, wanted: true })) : sheet.findings;
  const { byState: asked, waits } = keysByState(sheet, findings, packs, channels);
  const byState = new Map(asked);
  const tape = tapeWanted(findings, channels);
  if (tape) byState.set(tape.state, new Set([...(byState.get(tape.state) ?? []), ...tape.keys]));
  const codes = wantsCodes(sheet, findings);
  const asking = new Set(
    findings
      .filter(
        ({ check, wanted, stale, newest, moment }) =>
          wanted || (stale && newest && !moment) || tape?.checks.has(check) === true,
      )
      .map(({ check }) => check),
  );
  if (codes && !byState.has('key-on')) byState.set('key-on', new Set());
  return states.flatMap((state) => {
    const keys = byState.get(state);
    if (keys === undefined) return [];
    const wanted = [...keys].filter((key) => key !== 'lamp');
    const readings = byInstrument(inOneWay(wanted, sheet.job), channels, sheet.job);
    const lamp = keys.has('lamp');
    const codesHere = codes && state === 'key-on';
    if (readings.length === 0 && !lamp && !codesHere) return [];
    const step = sheet.steps.find(({ id }) => id === `readings/${state}`);
    return [
      {
        state,
        get conditions() {
          return merged(
            statedByStep(sheet, keys),
            wantedConditions(readings, state, sheet.job, prepared, asking),
          );
        },
        lamp,
        readings,
        codes: codesHere,
        waitsFor: step?.state === 'waiting' ? step.waitsFor : (waits.get(state) ?? []),
      },
    ];
  });
};
