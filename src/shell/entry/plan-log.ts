import type { Instant, Verb } from '../../core/job.ts';
import type { Change } from '../../input/edit/change.ts';
import { braces, type Pair, text } from '../../input/edit/value.ts';
import { right, type Typed, type TypedFault, under, wrong } from '../../input/typed/typed.ts';
import { needsWhat, typedFound, typedVerb, typedWhat, usualWhat } from '../../input/typed/typed-log.ts';
import { longest, typedText } from '../../input/typed/typed-text.ts';
import { type TypedTime, typedTime, writtenTime } from '../../input/typed/typed-time.ts';
import { typedWord } from '../../input/typed/typed-word.ts';
import type { OpenJob } from '../open-job.ts';

/** What somebody typed of work that was done. */
export interface LogRequest {
  readonly did: string;
  readonly what: readonly string[];
  readonly at?: string;
  readonly found?: string;
  readonly result?: string;
  readonly waitsFor?: string;
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
    request.result === undefined
      ? null
      : keep(under('--result', typedWord(request.result, ['passed', 'failed'], 'a result')));
  const at =
    request.at === undefined
      ? writtenTime(request.now, job.zone, request.toMinute)
      : keep(under('--at', typedTime(request.at, job.zone, request.now)));
  const waitsFor = said(request.waitsFor, '--for');
  const by = said(request.by, '--by', longest.name);
  const note = said(isNote ? request.what.join(' ') : request.note, isNote ? 'noted' : '--note');
  if (did === 'noted' && note === null && faults.length === 0) {
    keep(wrong(did, 'the log must say what was noted', 'write it after the verb'));
  }
  if (did === null || at === null || faults.length > 0) return { faults };
  const tail: Pair[] = (
    [
      ['found', found],
      ['result', result],
      ['for', waitsFor],
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
