import type {
  Closing,
  ConditionName,
  Conditions,
  Job,
  LogEntry,
  Reading,
  Snapshot,
  State,
} from '../../src/core/job.ts';
import { conditionWords } from '../../src/core/job.ts';
import type { Command, CommandOption } from '../../src/core/now/command.ts';
import type { Now } from '../../src/core/now/now.ts';
import type { BriefWorksheet } from '../../src/core/worksheet.ts';

/** Whoever does what `now` says, and finds something. */
export interface Somebody {
  /** One of the lines that answer what is to be done. */
  readonly choose: (commands: readonly Command[], now: Now) => Command;
  /** What a test or an eye finds; `what` is the id of the test, or `inspected COMPONENT`. */
  readonly finds: (what: string, outcomes: readonly string[], job: Job) => string;
  readonly reads: (key: string, state: State, job: Job, conditions: Conditions) => Reading;
  readonly lamp: (job: Job) => Snapshot['lamp'];
  readonly codes: (job: Job) => Snapshot['codes'];
  readonly condition: (name: string, wants: readonly string[], job: Job) => string;
  readonly passes: (what: string, job: Job) => boolean;
}

const step = 3 * 60_000;

/** Three minutes after all that is on record. */
export const nextTime = ({ opened, snapshots, log }: Job): number =>
  [...snapshots, ...log].reduce((at, { stamp }) => Math.max(at, stamp.at), opened) + step;

const quantity = (value: number) => ({ value, resolution: 0.1, text: String(value) });

/** What quantities among the conditions are stated as. */
const quantities: Readonly<Record<string, number>> = {
  air: 12,
  rested: 12,
  asleep: 1,
  barometer: 101,
  altitude: 20,
};

const stated = (
  names: readonly (readonly [string, readonly string[]])[],
  job: Job,
  somebody: Somebody,
  before?: Conditions,
): Conditions => {
  const words: Partial<Record<ConditionName, string>> = { ...before?.words };
  const numbers: Record<string, ReturnType<typeof quantity>> = {};
  for (const [name, wants] of names) {
    if (name in quantities) numbers[name] = quantity(quantities[name] ?? 0);
    else
      words[name as ConditionName] = somebody.condition(
        name,
        wants.length > 0 ? wants : conditionWords[name as ConditionName],
        job,
      );
  }
  const none = { air: null, rested: null, asleep: null, barometer: null, altitude: null };
  return { ...none, ...before, ...numbers, words };
};

const found = (options: readonly CommandOption[], name: string): readonly string[] | null => {
  const option = options.find((one) => one.name === name);
  if (!option) return null;
  return option.value.kind === 'choice' ? option.value.of : [];
};

const entryOf = (command: Extract<Command, { kind: 'log' }>, job: Job, somebody: Somebody): LogEntry => {
  const { did, what, options } = command;
  const outcomes = found(options, 'found');
  const named = did === 'inspected' ? `inspected ${what}` : (what ?? '');
  const results = found(options, 'result');
  const isClosing = did === 'closed';
  return {
    stamp: { at: nextTime(job), resolution: 60_000 },
    order: job.log.length,
    did,
    what,
    failed: results !== null && !isClosing && !somebody.passes(what ?? did, job),
    found: outcomes === null ? null : somebody.finds(named, outcomes, job),
    waitsFor: null,
    note: null,
    closing: isClosing ? ((results?.[0] ?? null) as Closing | null) : null,
    to: found(options, 'to') ? 'the dealer' : null,
    by: found(options, 'by') ? 'somebody' : null,
    reason: found(options, 'reason') ? 'so it is' : null,
    despite: null,
  };
};

const day = 86_400_000;

const log = (command: Extract<Command, { kind: 'log' }>, job: Job, somebody: Somebody): Job => {
  const entry = entryOf(command, job, somebody);
  const { did, what, options } = command;
  const amount = options.find(({ name }) => name === 'amount')?.value;
  const { costs } = job;
  const authorised =
    did === 'authorised' && amount?.kind === 'amount' && amount.about !== null
      ? [...costs.authorised, { at: entry.stamp.at, amount: amount.about }]
      : costs.authorised;
  const access = job.equipment?.find(({ does, access: paid }) => paid !== null && does.includes(what ?? ''));
  const lines =
    did === 'ordered' && access
      ? [
          ...costs.lines,
          {
            ...{
              kind: 'access' as const,
              what: what ?? '',
              amount: access.access?.amount ?? 0,
              minutes: null,
            },
            ...{ from: entry.stamp.at, ends: entry.stamp.at + 7 * day },
          },
        ]
      : costs.lines;
  return {
    ...job,
    status: did === 'closed' ? 'closed' : job.status,
    log: [...job.log, entry],
    costs: { ...costs, authorised, lines },
  };
};

const readThrice = (reading: Reading): Reading =>
  reading.kind === 'values'
    ? { ...reading, values: [0, 1, 2].flatMap(() => reading.values.slice(0, 1)) }
    : reading;

const add = (command: Extract<Command, { kind: 'add' }>, job: Job, somebody: Somebody): Job => {
  const { state, names, several, lamp, codes } = command;
  const conditions = stated(
    command.conditions.map(({ name, wants }) => [name, wants] as const),
    job,
    somebody,
  );
  const snapshot: Snapshot = {
    id: `walk-${job.snapshots.length}`,
    stamp: { at: nextTime(job), resolution: 60_000 },
    state,
    conditions,
    readings: new Map(
      names.map((key) => {
        const reading = somebody.reads(key, state, job, conditions);
        return [key, several.includes(key) ? readThrice(reading) : reading];
      }),
    ),
    lamp: lamp ? somebody.lamp(job) : null,
    codes: codes ? somebody.codes(job) : null,
  };
  return { ...job, snapshots: [...job.snapshots, snapshot] };
};

/** What only an editor changes: a fact of the vehicle, an amount, a reason. */
const edit = ({ at }: Extract<Command, { kind: 'edit' }>, job: Job): Job => {
  if (at.startsWith('costs:')) {
    const lines = job.costs.lines.map((line) => ({ ...line, amount: line.amount ?? 20 }));
    return { ...job, costs: { ...job.costs, lines } };
  }
  if (at.startsWith('log:')) {
    return {
      ...job,
      log: job.log.map((entry) => ({ ...entry, despite: entry.despite ?? 'so it is', by: 'somebody' })),
    };
  }
  const { vehicle } = job;
  return {
    ...job,
    vehicle: {
      ...vehicle,
      battery: vehicle.battery ?? 'agm',
      charging: vehicle.charging ?? 'fixed',
      sensorSense: vehicle.sensorSense ?? { LF: 'rising', RF: 'rising', LR: 'rising', RR: 'rising' },
    },
  };
};

/** A job once somebody has done what a line says, and has written down what came of it. */
export const answered = (command: Command, job: Job, somebody: Somebody): Job => {
  switch (command.kind) {
    case 'log':
      return log(command, job, somebody);
    case 'add':
      return add(command, job, somebody);
    case 'edit':
      return edit(command, job);
    case 'waive': {
      const ends = nextTime(job) + 30 * day;
      const waiver = {
        ...{ finding: command.finding, reason: 'so it is', by: 'somebody', until: '' },
        ends,
        isVoid: false,
        ended: false,
      };
      return { ...job, waivers: [...job.waivers, waiver] };
    }
    case 'fix': {
      const isCondition = (name: string): boolean => name in conditionWords || name in quantities;
      const names = command.conditions.filter(({ name }) => isCondition(name));
      const keys = command.conditions.filter(({ name }) => !isCondition(name));
      const snapshots = job.snapshots.map((one) => {
        if (one.id !== command.snapshot) return one;
        const pairs = names.map(({ name, wants }) => [name, wants] as const);
        const conditions = stated(pairs, job, somebody, one.conditions);
        const put = keys.map(({ name }) => [name, somebody.reads(name, one.state, job, conditions)] as const);
        return { ...one, conditions, readings: new Map([...one.readings, ...put]) };
      });
      return { ...job, snapshots };
    }
  }
};

/** One round of a walk. */
export interface Round {
  readonly sheet: BriefWorksheet;
  readonly line: Command | null;
}

/**
 * Does what `now` says again and again, until the job is closed.
 *
 * @param judge `assess` or `assessBriefly`, with the packs
 * @param most rounds after which it is given up
 */
export const follow = (
  first: Job,
  somebody: Somebody,
  judge: (job: Job, at: number) => BriefWorksheet,
  most = 60,
): { readonly rounds: readonly Round[]; readonly end: Job } => {
  const rounds: Round[] = [];
  let job = first;
  while (rounds.length < most) {
    const sheet = judge(job, nextTime(job));
    const { now } = sheet;
    if (now.kind === 'none' || now.command === null)
      return { rounds: [...rounds, { sheet, line: null }], end: job };
    const line = somebody.choose([now.command, ...now.instead], now);
    rounds.push({ sheet, line });
    job = answered(line, job, somebody);
  }
  return { rounds, end: job };
};

/** What a sound vehicle reads. */
const soundValues: Readonly<Record<string, number>> = {
  ...{
    position: 2.5,
    'plug-signal': 2.5,
    'pin-signal': 2.5,
    'unplugged-signal': 0,
    reference: 5,
    'shown-height': 0,
  },
  ...{
    'shown-travel': 50,
    'sensor-ground-drop': 0.01,
    height: 450,
    tyre: 330,
    damper: 2,
    'battery-temperature': 15,
  },
  ...{
    'pin-supply': 12.4,
    'pin-ground': 0.02,
    'feed-drop': 0.05,
    'ground-drop': 0.03,
    'charging-ripple': 0.03,
  },
  ...{ 'standing-current': 0.02, 'network-resistance': 60, tank: 120, 'tank-gauge': 120, spring: 80 },
  ...{
    'compressor-supply': 12.3,
    'compressor-current': 15,
    'compressor-run-time': 2,
    'compressor-temperature': 40,
  },
};

const volts: Readonly<Record<State, number>> = {
  rest: 12.8,
  'key-on': 12.5,
  cranking: 10.8,
  running: 14.2,
  driving: 14.2,
};

/** The tank while a good compressor runs: it fills from snapshot to snapshot. */
const filling = ({ snapshots }: Job): number => {
  const last = snapshots.at(-1);
  const before = last?.conditions.words.compressor === 'on' ? last.readings.get('tank') : undefined;
  return before?.kind === 'values' ? (before.values[0]?.value ?? 0) + 60 : 60;
};

/** The value that a sound vehicle would read, in the channel's unit. */
export const soundValue = (key: string, state: State, job: Job, conditions?: Conditions): number => {
  if ((key === 'tank' || key === 'tank-gauge') && conditions?.words.compressor === 'on') return filling(job);
  const base = key.split('.')[0] ?? key;
  // Where the last snapshot had a charger on, the supply is what it gives.
  const charged = [conditions, job.snapshots.at(-1)?.conditions].some(
    (one) => one?.words.maintainer === 'on',
  );
  if (base === 'supply' || base === 'battery') return charged && state === 'key-on' ? 13.6 : volts[state];
  if (base === 'pin-supply' || base === 'compressor-supply') return volts[state] - 0.1;
  if (job.vehicle.layout === 'rear-air-assist' && (base === 'tank' || base === 'tank-gauge')) return 25;
  return soundValues[base] ?? 0;
};

export const readingOf = (value: number, resolution = 0.01): Reading => ({
  kind: 'values',
  values: [{ value, resolution, text: String(value) }],
  by: 'module',
});
