import { closings, heldVerbs, type Instant, type Job, type LogEntry, type Verb } from '../../core/job.ts';
import type { Change } from '../../input/edit/change.ts';
import { braces, type Pair, text } from '../../input/edit/value.ts';
import { right, type Typed, type TypedFault, under, wrong } from '../../input/typed/typed.ts';
import {
  needsWhat,
  typedAmount,
  typedFound,
  typedResult,
  typedVerb,
  typedWhat,
  usualWhat,
} from '../../input/typed/typed-log.ts';
import { longest, typedText } from '../../input/typed/typed-text.ts';
import { type TypedTime, typedTime, writtenTime } from '../../input/typed/typed-time.ts';
import { get, textOf } from '../../input/yaml/tree.ts';
import type { OpenJob } from '../open-job.ts';

/** What somebody typed of work that was done. */
export interface LogRequest {
  readonly did: string;
  readonly what: readonly string[];
  readonly at?: string;
  readonly found?: string;
  readonly result?: string;
  readonly waitsFor?: string;
  readonly to?: string;
  readonly reason?: string;
  readonly by?: string;
  readonly note?: string;
  readonly amount?: string;
  readonly despite?: string;
  readonly now: Instant;
  readonly toMinute: boolean;
}

export interface PlannedLog {
  readonly did: Verb;
  /** Empty where the entry is about the job as a whole. */
  readonly what: readonly string[];
  readonly at: TypedTime;
  readonly found: string | null;
  /** The entries as they will be read, for the hold point that may not allow them. */
  readonly entries: readonly LogEntry[];
  readonly change: Change;
}

const subjects = (did: Verb, typed: readonly string[]): Typed<readonly string[]> => {
  const usual = usualWhat[did];
  if (typed.length > 0) return right(typed);
  if (usual !== undefined) return right([usual]);
  return needsWhat.includes(did)
    ? wrong(did, `the log must say what was ${did}`, 'name a component such as sensor.LR, a step or a test')
    : right([]);
};

/** What must be said with a verb beside what it was done to. */
const missingFlags = (did: Verb, { reason, to, by, result, despite }: LogRequest): TypedFault[] => {
  const unrepaired = did === 'closed' && closings.some((one) => one === result && one !== 'repaired');
  const wanted = [
    { is: (did === 'skipped' || unrepaired) && reason === undefined, flag: '--reason "…"', says: 'why' },
    { is: did === 'passed-on' && to === undefined, flag: '--to "…"', says: 'to whom' },
    {
      is: (unrepaired || despite !== undefined) && by === undefined,
      flag: '--by "…"',
      says: 'who says so',
    },
    {
      is: did === 'closed' && result === undefined,
      flag: `--result ${closings.join('|')}`,
      says: 'how the job ended',
    },
  ];
  return wanted
    .filter(({ is }) => is)
    .map(({ flag, says }) => ({ typed: did, message: `the log must say ${says}`, hint: `add ${flag}` }));
};

/** Options that stand beside some verbs only. */
const strayFlags = (did: Verb, what: readonly (string | null)[], request: LogRequest): TypedFault[] => [
  ...(request.despite !== undefined && !heldVerbs.includes(did)
    ? [{ typed: '--despite', message: `no hold point waits for what was ${did}`, hint: 'leave it out' }]
    : []),
  ...(request.amount !== undefined && !(did === 'authorised' && what[0] === 'cost')
    ? [{ typed: '--amount', message: 'an amount is what was authorised', hint: 'log it as authorised cost' }]
    : []),
];

interface Told {
  readonly did: Verb;
  readonly what: readonly (string | null)[];
  readonly amount: string | null;
  readonly at: TypedTime;
  readonly by: string | null;
}

/** Access that was bought: a line of the costs, with what the shop file says of its price and how long it lasts. */
const accessLine = (what: string | null, at: TypedTime, equipment: Job['equipment']): Change[] => {
  const able = (equipment ?? []).filter(({ does }) => what !== null && does.includes(what));
  const terms = able.some(({ access }) => access === null) ? null : (able[0]?.access ?? null);
  if (what === null || terms === null) return [];
  const line = braces([
    ['kind', text('access')],
    ['what', text(what)],
    ['amount', { kind: 'bare', text: String(terms.amount) }],
    ['from', text(at.text)],
    ...(terms.lasts === null ? [] : ([['lasts', text(terms.lasts)]] as const)),
  ]);
  return [{ kind: 'append', to: ['costs', 'lines'], items: [line] }];
};

/** What an entry changes in the file beside the log: the amount that was authorised, and that the job is closed. */
const besides = (
  { did, what, amount, at, by }: Told,
  equipment: Job['equipment'],
  status: string | undefined,
): readonly Change[] => [
  ...(did === 'ordered' ? what.flatMap((one) => accessLine(one, at, equipment)) : []),
  ...(amount === null
    ? []
    : [
        {
          kind: 'append' as const,
          to: ['costs', 'authorised'],
          items: [
            braces([
              ['at', text(at.text)],
              ['amount', { kind: 'bare', text: amount }],
              ...(by === null ? [] : ([['by', text(by)]] as const)),
            ]),
          ],
        },
      ]),
  ...(did !== 'closed' || status === 'closed'
    ? []
    : [
        status === undefined
          ? { kind: 'put' as const, at: ['status'], value: text('closed') }
          : { kind: 'replace' as const, at: ['status'], text: 'closed' },
      ]),
];

/** Log entries to be written, or everything that is wrong with what was typed of them. */
export const planLog = (
  { read }: OpenJob,
  request: LogRequest,
): PlannedLog | { readonly faults: readonly TypedFault[] } => {
  const { job, prepared } = read;
  const { packs } = prepared;
  if (job === null) throw new Error('a job with problems is not added to');
  const faults: TypedFault[] = [];
  const keep = <T>(typed: Typed<T>): T | null => {
    if (typed.ok) return typed.value;
    faults.push(typed.fault);
    return null;
  };
  const said = (typed: string | undefined, flag: string, most?: number): string | null =>
    typed === undefined ? null : keep(typedText(typed, flag, most));
  const did = keep(typedVerb(request.did, packs));
  // A note needs no quotes around it; that a danger is heeded is no note.
  const isStop = request.what.length === 1 && request.what[0]?.toLowerCase() === 'stop';
  const isNote = did === 'noted' && request.note === undefined && request.what.length > 0 && !isStop;
  const words = did === null || isNote ? [] : (keep(subjects(did, request.what)) ?? []);
  const what = did === null ? [] : words.map((word) => keep(typedWhat(word, did, packs)));
  const named = what.filter((one) => one !== null);
  const outcome = said(request.found, '--found', longest.name);
  const found =
    did === null || outcome === null ? null : keep(under('--found', typedFound(outcome, did, named, packs)));
  const result =
    request.result === undefined ? null : keep(under('--result', typedResult(request.result, did)));
  const at =
    request.at === undefined
      ? writtenTime(request.now, job.zone, request.toMinute)
      : keep(under('--at', typedTime(request.at, job.zone, request.now)));
  const waitsFor = said(request.waitsFor, '--for');
  const to = said(request.to, '--to');
  const reason = said(request.reason, '--reason');
  const by = said(request.by, '--by', longest.name);
  const note = said(isNote ? request.what.join(' ') : request.note, isNote ? 'noted' : '--note');
  if (did === 'noted' && note === null && !isStop && faults.length === 0) {
    keep(wrong(did, 'the log must say what was noted', 'write it after the verb'));
  }
  const amount = request.amount === undefined ? null : keep(under('--amount', typedAmount(request.amount)));
  const despite = said(request.despite, '--despite');
  if (did !== null) faults.push(...missingFlags(did, request), ...strayFlags(did, what, request));
  if (did === null || at === null || faults.length > 0) return { faults };
  const tail: Pair[] = (
    [
      ['found', found],
      ['result', result],
      ['for', waitsFor],
      ['to', to],
      ['reason', reason],
      ['despite', despite],
      ['by', by],
      ['note', note],
    ] as const
  ).flatMap(([key, value]): Pair[] => (value === null ? [] : [[key, text(value)]]));
  const entry = (one: string | null) =>
    braces([
      ['at', text(at.text)],
      ['did', text(did)],
      ...(one === null ? [] : ([['what', text(one)]] as const)),
      ...tail,
    ]);
  const twice = named.find((one, index) => named.indexOf(one) !== index);
  if (twice !== undefined) {
    const hint = 'leave one of the two out';
    return { faults: [{ typed: twice, message: 'this is given twice', hint }] };
  }
  const whats = named.length === 0 ? [null] : named;
  const change: Change = {
    kind: 'several',
    changes: [
      { kind: 'append', to: ['log'], items: whats.map(entry) },
      ...besides(
        { did, what: whats, amount, at, by },
        job.equipment,
        textOf(get(read.root ?? undefined, 'status')),
      ),
    ],
  };
  const entries = whats.map(
    (one, index): LogEntry => ({
      ...{ stamp: { at: at.at, resolution: 60_000 }, order: job.log.length + index, did, what: one },
      ...{ failed: result === 'failed', found, waitsFor, note, to, by, reason, despite },
      closing: closings.find((closing) => closing === result) ?? null,
    }),
  );
  return { did, what: named, at, found, entries, change };
};
