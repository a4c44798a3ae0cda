import { type Job, type Snapshot, usualTerms } from '../../core/job.ts';
import type { Assumption, Warning } from '../../core/worksheet-parts.ts';
import { isZone } from '../../time/zones.ts';
import { type LocatedFlaw, locate, type Problem, speakingOrder } from '../problem.ts';
import { quoted, shortened } from '../quoted.ts';
import { schemaFlaws } from '../schema/schema-check.ts';
import { makeSink, type Sink } from '../sink.ts';
import { type UsualForm, usualForm } from '../usual/usual-form.ts';
import { readYaml } from '../yaml/read-yaml.ts';
import { entriesOf, get, itemsOf, type Node, textOf } from '../yaml/tree.ts';
import { checkServiceSubjects } from './check-service-subjects.ts';
import type { JobContext } from './job-context.ts';
import type { PackRef } from './pack-ref.ts';
import { readCosts } from './read-costs.ts';
import { readInstruments } from './read-instruments.ts';
import { readLog } from './read-log.ts';
import { type Opening, readOpening } from './read-opening.ts';
import { readQuantityNode } from './read-reading.ts';
import { readRecentWork } from './read-recent-work.ts';
import { readSnapshot } from './read-snapshot.ts';
import { readSymptoms } from './read-symptoms.ts';
import { zoneHint } from './read-time.ts';
import { readVehicle } from './read-vehicle.ts';
import { readWaivers } from './read-waivers.ts';
import { inFileOrder } from './same-minute.ts';
import { clockReader, timeReader } from './time-readers.ts';
import { titleOf } from './title-of.ts';

/** A job file whose text has been parsed; its packs are still to be found. */
export interface JobFile {
  readonly text: string;
  readonly root: Node | null;
  readonly flaws: readonly LocatedFlaw[];
  /** `id@range` as typed; null where the file names none. */
  readonly packs: readonly PackRef[] | null;
  /** Where the list of packs stands; the beginning of the file where it has none. */
  readonly packsAt: number;
  /** Checks that waivers accept under a named version of their pack. */
  readonly waivedUnder: readonly { readonly check: string; readonly version: string }[];
}

export interface ReadJob {
  /** Null exactly where there are problems. */
  readonly job: Job | null;
  readonly problems: readonly Problem[];
  readonly warnings: readonly Warning[];
  /** The tree in its usual form; null where nothing could be made of the text. */
  readonly form: UsualForm | null;
}

/** First half of reading a job: the text to a tree, and which packs it asks for. */
export const openJob = (text: string): JobFile => {
  const { root, flaws } = readYaml(text);
  const packs = get(root ?? undefined, 'packs');
  // A single pack without brackets is reported later; until then it is read as a list of one.
  const refs = (packs?.kind === 'scalar' ? [packs] : itemsOf(packs))
    .map((item) => ({ ref: textOf(item) ?? '', at: item.start }))
    .filter(({ ref }) => ref !== '');
  const waivedUnder = itemsOf(get(root ?? undefined, 'waivers')).flatMap((item) => {
    const check = textOf(get(item, 'finding'))?.split(':')[0];
    const version = textOf(get(item, 'under'));
    return check !== undefined && version !== undefined ? [{ check, version }] : [];
  });
  return {
    text,
    root,
    flaws,
    packs: packs ? refs : null,
    packsAt: packs?.start ?? root?.start ?? 0,
    waivedUnder,
  };
};

const readSnapshots = (
  nodes: readonly Node[],
  read: (node: Node) => Snapshot | null,
  sink: Sink,
): readonly Snapshot[] => {
  const seen = new Set<string>();
  const snapshots: Snapshot[] = [];
  for (const node of nodes) {
    const idNode = get(node, 'id');
    const id = textOf(idNode);
    if (id !== undefined && idNode && seen.has(id)) {
      sink.add(
        'duplicate-id',
        idNode,
        `another snapshot is called ${quoted(id)}`,
        `give this one its own name, such as ${shortened(id)}-2`,
      );
    }
    if (id !== undefined) seen.add(id);
    const snapshot = read(node);
    if (snapshot) snapshots.push(snapshot);
  }
  return inFileOrder(snapshots);
};

/** The zone that a job names, else that of the shop or of the machine. */
const readZone = (root: Node, { shop, source }: JobContext, sink: Sink): string => {
  const node = get(root, 'zone');
  const zone = textOf(node) ?? shop?.zone ?? source?.zone() ?? 'UTC';
  if (isZone(zone)) return zone;
  if (node) {
    sink.add('unknown-zone', node, `${quoted(zone)} is not a time zone`, zoneHint(zone));
  }
  return 'UTC';
};

/** What the file leaves out and the judgement hangs on; nothing where somebody else says it. */
const assumptions = (
  root: Node,
  job: Job,
  opening: Opening | null,
  form: UsualForm | null,
  { shop, packsAssumed }: JobContext,
): Assumption[] => {
  const nodes = itemsOf(get(root, 'snapshots'));
  const untimed = nodes.filter((node) => get(node, 'at') === undefined);
  const taken = untimed.map((node) => textOf(get(node, 'id')) ?? '').filter((id) => id !== '');
  return [
    ...(opening === null || opening.from === 'said'
      ? []
      : [{ of: 'opened', at: job.opened, from: opening.from } as const]),
    ...(taken.length > 0 ? [{ of: 'taken', snapshots: taken } as const] : []),
    ...(form?.stateAssumed ? [{ of: 'state', state: 'key-on' } as const] : []),
    ...(get(root, 'zone') || shop?.zone ? [] : [{ of: 'zone', zone: job.zone } as const]),
    ...(get(get(root, 'vehicle'), 'layout') ? [] : [{ of: 'layout', layout: job.vehicle.layout } as const]),
    ...(packsAssumed ? [{ of: 'packs' } as const] : []),
  ];
};

/** Reads the job in a tree in its usual form; flaws go to the sink and reading goes on. */
export const readJobTree = (
  root: Node,
  context: JobContext,
  warn: (warning: Warning) => void,
  sink: Sink,
  form: UsualForm | null = null,
): Job => {
  const zone = readZone(root, context, sink);
  const { elsewhere, prepared, source } = context;
  // Worked out where it is asked for: most files say it, and need it for nothing else.
  let opening: Opening | null = null;
  const opened = (): Opening => {
    opening ??= readOpening(root, zone, source?.savedAt ?? (() => 0));
    return opening;
  };
  const timeAt = timeReader(zone, () => opened().day(), warn, sink);
  const instruments = readInstruments(get(root, 'instruments'), sink);
  const channels = prepared.channelById;
  const clockAt = clockReader(timeAt, sink);
  const names = instruments.map(({ name }) => name);
  const scope = {
    elsewhere,
    timeAt: clockAt,
    opened: () => opened().stamp,
    warn,
    sink,
    channels,
    instruments: names,
  };
  for (const { node } of entriesOf(get(root, 'distance'))) readQuantityNode(node, 'km', sink);
  const openedAt = get(root, 'opened');
  const status = textOf(get(root, 'status'));
  const vehicle = readVehicle(get(root, 'vehicle'), prepared, sink);
  const complaint = textOf(get(root, 'complaint'));
  const job: Job = {
    id: textOf(get(root, 'job')) ?? source?.name ?? 'job',
    title: textOf(get(root, 'title')) ?? (complaint === undefined ? vehicle.name : titleOf(complaint)),
    status: status === 'waiting' || status === 'closed' ? status : 'open',
    opened: openedAt ? (timeAt(openedAt)?.at ?? 0) : opened().stamp.at,
    zone,
    vehicle,
    symptoms: readSymptoms(get(root, 'symptoms')),
    recentWork: readRecentWork(get(root, 'recent-work'), {
      components: prepared.components,
      elsewhere,
      warn,
      sink,
    }),
    instruments,
    snapshots: readSnapshots(itemsOf(get(root, 'snapshots')), (node) => readSnapshot(node, scope), sink),
    log: readLog(get(root, 'log'), { elsewhere, timeAt: clockAt, warn, sink, prepared, vehicle }),
    costs: readCosts(get(root, 'costs'), context.shop, zone, (node) => timeAt(node)?.at ?? null, sink),
    waivers: readWaivers(get(root, 'waivers'), zone, context, sink),
    equipment: context.shop?.equipment ?? null,
    terms: context.shop?.terms ?? usualTerms,
  };
  const what = assumptions(root, job, opening, form, context);
  if (what.length > 0) warn({ kind: 'assumed', what });
  return job;
};

/**
 * Second half of reading a job: the tree to a job, against its packs. All problems of the file come in one list. Of two
 * problems at one place the first is kept, so those of the reader, which tell more, come before those of the schema.
 */
export const readJob = (file: JobFile, context: JobContext, more: readonly LocatedFlaw[] = []): ReadJob => {
  const sink = makeSink();
  const warnings: Warning[] = [];
  let job: Job | null = null;
  let form: UsualForm | null = null;
  const { first, last } = speakingOrder(file.flaws);
  sink.addAll(first);
  if (file.root) {
    form = usualForm(file.root, context.prepared.channelById);
    const { root, flaws } = form;
    sink.addAll(flaws);
    job = readJobTree(root, context, (warning) => warnings.push(warning), sink, form);
    checkServiceSubjects(root, job, context.prepared, sink);
    sink.addAll(more);
    sink.addAll(last);
    sink.addAll(schemaFlaws('job', root));
  }
  const problems = locate(file.text, sink.flaws);
  return { job: problems.length > 0 ? null : job, problems, warnings, form };
};
