import type { Instant, Snapshot } from '../../core/job.ts';
import type { Change } from '../../input/edit/change.ts';
import { sourceAt } from '../../input/edit/set-value.ts';
import { braces, type Pair, text, type Value } from '../../input/edit/value.ts';
import { nodeAt, type Way } from '../../input/edit/way.ts';
import { inline } from '../../input/edit/write-value.ts';
import { quoted } from '../../input/quoted.ts';
import { didYouMean } from '../../input/suggest.ts';
import type { Assignment } from '../../input/typed/assignment.ts';
import { right, type Typed, type TypedFault, wrong } from '../../input/typed/typed.ts';
import { isEmptyList } from '../../input/typed/typed-code.ts';
import { codeOf, keyOfName, type Part, typedParts } from '../../input/typed/typed-snapshot.ts';
import { writtenTime } from '../../input/typed/typed-time.ts';
import { entriesOf, get, type Node, textOf } from '../../input/yaml/tree.ts';
import type { OpenJob } from '../open-job.ts';
import { placeOf } from './part-places.ts';

/** What somebody typed to put a snapshot right. */
export interface FixRequest {
  readonly snapshot: string;
  readonly assignments: readonly Assignment[];
  readonly now: Instant;
}

/** One part of a snapshot that is put right, or added. */
export interface Fixed {
  readonly part: Part;
  /** What stood there, as it stood; null where nothing did. */
  readonly was: string | null;
}

export interface PlannedFix {
  readonly id: string;
  readonly fixed: readonly Fixed[];
  readonly change: Change;
}

const snapshotCalled = (typed: string, { read }: OpenJob): Typed<Snapshot> => {
  const snapshots = read.job?.snapshots ?? [];
  const word = typed.trim().toLowerCase();
  const found =
    snapshots.find(({ id }) => id === typed.trim()) ?? snapshots.find(({ id }) => id.toLowerCase() === word);
  if (found) return right(found);
  const ids = snapshots.map(({ id }) => id);
  const hint =
    ids.length === 0
      ? 'the job has none yet: cornerwise add writes one'
      : didYouMean(typed.trim(), ids, `there ${ids.length > 1 ? 'are' : 'is'} ${ids.slice(-12).join(', ')}`);
  return wrong(typed, `no snapshot is called ${quoted(typed)}`, hint);
};

/** What a snapshot has of what was meant, for whoever named something else. */
const others = ({ name }: Part, { readings, codes, lamp }: Snapshot): string => {
  if (name.kind === 'codes') {
    const known = (codes ?? []).map(({ code }) => code);
    return known.length > 0 ? `it has ${known.join(', ')}` : 'it has no codes';
  }
  const keys = [...readings.keys()].map((key) => key.replace(/^position\./u, ''));
  const known = [...keys, ...(lamp === null ? [] : ['lamp'])];
  const own = known.length > 0 ? `it has ${known.join(', ')}; ` : '';
  return `${own}what was read later is a snapshot of its own: cornerwise add`;
};

/** Where parts of a snapshot are put right. */
interface Bench {
  readonly opened: OpenJob;
  readonly snapshot: Snapshot;
  /** The way to the snapshot, and the snapshot as it stands there. */
  readonly above: Way;
  readonly node: Node;
  /** When it is put right, as a comment says it. */
  readonly when: string;
}

/** A code with what was said of it before and is not said anew. */
const withOldParts = (value: Value, old: Node | undefined): Value => {
  if (value.kind !== 'map' || old?.kind !== 'map') return value;
  const said = new Set(value.entries.map(([key]) => key));
  const kept = entriesOf(old).flatMap(({ key, node }): Pair[] => {
    const typed = said.has(key) ? undefined : textOf(node);
    if (typed === undefined || node.kind !== 'scalar') return [];
    return [[key, typeof node.value === 'string' ? text(typed) : { kind: 'bare', text: typed }]];
  });
  return { ...value, entries: [...value.entries, ...kept] };
};

type OneFix = Fixed & { readonly change: Change | null };

/** A part put right; a condition that the snapshot does not state has no change of its own. */
const fixPart = (part: Part, { opened, snapshot, above, node, when }: Bench): Typed<OneFix> => {
  const { name } = part;
  const isCode = name.kind === 'codes';
  if (isCode && isEmptyList(part.echo)) {
    const hint = 'what was read later is a snapshot of its own: cornerwise add';
    return wrong('code=none', 'a code list that was read is not emptied', hint);
  }
  const what = isCode ? codeOf(part) : keyOfName(name);
  const below = placeOf(node, name, what);
  if (below === null) {
    return name.kind === 'condition'
      ? right({ part, was: null, change: null })
      : wrong(what, `${snapshot.id} says nothing of ${what}`, others(part, snapshot));
  }
  const at = [...above, ...below];
  const root = opened.read.root;
  const value = isCode ? withOldParts(part.value, root === null ? undefined : nodeAt(root, at)) : part.value;
  const was = root && sourceAt(opened.text, root, at);
  if (was === null)
    return wrong(what, `${what} of ${snapshot.id} stands in several lines`, 'correct it in an editor');
  if (was === inline(value))
    return wrong(what, `${what} of ${snapshot.id} is ${was} already`, 'leave it out');
  const remark = `${what} was ${was}, corrected ${when}`;
  return right({ part, was, change: { kind: 'set', at, value, remark } });
};

/** Conditions that nobody stated, put where the snapshot keeps them. */
const addedConditions = (added: readonly Pair[], { above, node }: Bench): Change[] => {
  const conditions = [...above, 'conditions'];
  if (added.length === 0) return [];
  return get(node, 'conditions') === undefined
    ? [{ kind: 'put', at: conditions, value: braces(added) }]
    : added.map(([name, value]) => ({ kind: 'put', at: [...conditions, name], value }));
};

/** A snapshot put right, or everything that is wrong with what was typed of it. */
export const planFix = (
  opened: OpenJob,
  { snapshot: typedId, assignments, now }: FixRequest,
): PlannedFix | { readonly faults: readonly TypedFault[] } => {
  const { job, root, form, prepared } = opened.read;
  if (job === null || root === null || form === null) throw new Error('a job with problems is not changed');
  const typed = typedParts(assignments, prepared.channelById, job.instruments);
  const called = snapshotCalled(typedId, opened);
  if (!called.ok) return { faults: [called.fault, ...typed.faults] };
  const snapshot = called.value;
  const above = form.ways.get(snapshot.id) ?? [];
  const when = writtenTime(now, job.zone, true).text.replace('T', ' ');
  const bench: Bench = { opened, snapshot, above, node: nodeAt(root, above) ?? root, when };
  const fixes = typed.parts.map((part) => fixPart(part, bench));
  const faults = [...typed.faults, ...fixes.flatMap((one) => (one.ok ? [] : [one.fault]))];
  if (faults.length > 0) return { faults };
  const fixed = fixes.flatMap((one) => (one.ok ? [one.value] : []));
  const added = fixed.flatMap(({ part, change }): Pair[] =>
    change === null ? [[keyOfName(part.name), part.value]] : [],
  );
  const changes = [...fixed.flatMap(({ change }) => change ?? []), ...addedConditions(added, bench)];
  return { id: snapshot.id, fixed, change: { kind: 'several', changes } };
};
