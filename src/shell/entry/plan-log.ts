import { closings, type Instant, type Verb } from '../../core/job.ts';
import type { Change } from '../../input/edit/change.ts';
import { braces, type Pair, text } from '../../input/edit/value.ts';
import { right, type Typed, type TypedFault, under, wrong } from '../../input/typed/typed.ts';
import {
  needsWhat,
  typedFound,
  typedResult,
  typedVerb,
  typedWhat,
  usualWhat,
} from '../../input/typed/typed-log.ts';
import { longest, typedText } from '../../input/typed/typed-text.ts';
import { type TypedTime, typedTime, writtenTime } from '../../input/typed/typed-time.ts';
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
  readonly now: Instant;
  readonly toMinute: boolean;
}

export interface PlannedLog {
  readonly did: Verb;
  /** Empty where the entry is about the job as a whole. */
  readonly what: readonly string[];
  readonly at: TypedTime;
  readonly found: string | null;
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
const missingFlags = (did: Verb, { reason, to, by, result }: LogRequest): TypedFault[] => {
  const unrepaired = did === 'closed' && closings.some((one) => one === result && one !== 'repaired');
  const wanted = [
    { is: (did === 'skipped' || unrepaired) && reason === undefined, flag: '--reason "…"', says: 'why' },
    { is: did === 'passed-on' && to === undefined, flag: '--to "…"', says: 'to whom' },
    { is: unrepaired && by === undefined, flag: '--by "…"', says: 'who says so' },
  ];
  return wanted
    .filter(({ is }) => is)
    .map(({ flag, says }) => ({ typed: did, message: `the log must say ${says}`, hint: `add ${flag}` }));
};

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
  // A note needs no quotes around it.
  const isNote = did === 'noted' && request.note === undefined && request.what.length > 0;
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
  if (did === 'noted' && note === null && faults.length === 0) {
    keep(wrong(did, 'the log must say what was noted', 'write it after the verb'));
  }
  if (did !== null) faults.push(...missingFlags(did, request));
  if (did === null || at === null || faults.length > 0) return { faults };
  const tail: Pair[] = (
    [
      ['found', found],
      ['result', result],
      ['for', waitsFor],
      ['to', to],
      ['reason', reason],
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
  const items = named.length === 0 ? [entry(null)] : named.map(entry);
  return { did, what: named, at, found, change: { kind: 'append', to: ['log'], items } };
};
