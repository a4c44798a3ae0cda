import { checkContext } from '../../core/checks/check-context.ts';
import { kindOf } from '../../core/checks/kinds/index.ts';
import { type Job, type Snapshot, type Stamp, usualTerms, type Waiver } from '../../core/job.ts';
import { type PreparedPacks, preparedFor } from '../../core/prepare/prepared-packs.ts';
import type { Warning } from '../../core/worksheet-parts.ts';
import { isZone } from '../../time/zones.ts';
import { type LocatedFlaw, locate, type Problem, speakingOrder } from '../problem.ts';
import { quoted, shortened } from '../quoted.ts';
import { schemaFlaws } from '../schema/schema-check.ts';
import { makeSink, type Sink } from '../sink.ts';
import { didYouMean } from '../suggest.ts';
import { readYaml } from '../yaml/read-yaml.ts';
import { entriesOf, get, itemsOf, type Node, textOf } from '../yaml/tree.ts';
import { checkHint } from './check-hint.ts';
import type { JobContext } from './job-context.ts';
import type { PackRef } from './pack-ref.ts';
import { readCosts } from './read-costs.ts';
import { readInstruments } from './read-instruments.ts';
import { readLog } from './read-log.ts';
import { readQuantityNode } from './read-reading.ts';
import { readRecentWork } from './read-recent-work.ts';
import { readSnapshot } from './read-snapshot.ts';
import { readSymptoms } from './read-symptoms.ts';
import { endOfDay, readTime, zoneHint } from './read-time.ts';
import { readVehicle } from './read-vehicle.ts';

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

/** A reader of times in one zone that reports what is wrong with them. */
const timeReader =
  (zone: string, warn: (warning: Warning) => void, sink: Sink) =>
  (node: Node): Stamp | null => {
    const text = textOf(node);
    if (text === undefined) return null;
    const result = readTime(text, zone);
    if (result.ok) {
      if (result.ambiguous) warn({ kind: 'ambiguous-time', text });
      return result.stamp;
    }
    sink.add(result.code, node, result.message, result.hint);
    return null;
  };

/** A reader of times that must have a time of day: whether a reading came before the work depends on it. */
const clockReader =
  (timeAt: (node: Node) => Stamp | null, sink: Sink) =>
  (node: Node): Stamp | null => {
    const stamp = timeAt(node);
    if (stamp === null || stamp.resolution <= 60_000) return stamp;
    const text = textOf(node) ?? '';
    sink.add('bad-time', node, `"${text}" has no time of day`, `write it like ${text}T08:40`);
    return null;
  };

const readSnapshots = (
  nodes: readonly Node[],
  read: (node: Node) => Snapshot | null,
  sink: Sink,
): Snapshot[] => {
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
  return snapshots;
};

const readWaiver = (node: Node, zone: string, context: JobContext, sink: Sink): Waiver[] => {
  const findingNode = get(node, 'finding');
  const untilNode = get(node, 'until');
  const finding = textOf(findingNode);
  const until = textOf(untilNode);
  if (finding === undefined || until === undefined || !findingNode || !untilNode) return [];
  const ends = endOfDay(until, zone);
  if (ends === null)
    sink.add('bad-time', untilNode, `${quoted(until)} is not a day`, 'write it like 2026-03-09');
  const check = finding.split(':')[0] ?? '';
  const checks = context.prepared.checks.map(({ id }) => id);
  if (!checks.includes(check)) {
    const message = `the job's packs have no check ${quoted(check)}`;
    sink.add('unknown-name', findingNode, message, checkHint(check, checks, checks));
  }
  const under = textOf(get(node, 'under'));
  const isVoid = under !== undefined && context.sameDefinition(check, under) !== true;
  return [
    {
      finding,
      reason: textOf(get(node, 'reason')) ?? '',
      by: textOf(get(node, 'by')) ?? '',
      until,
      ends: ends ?? 0,
      isVoid,
      ended: false,
    },
  ];
};

const readZone = (root: Node, context: JobContext, sink: Sink): string => {
  const node = get(root, 'zone');
  const zone = textOf(node) ?? context.shop?.zone ?? 'UTC';
  if (node === undefined && !context.shop?.zone) {
    sink.add(
      'missing-key',
      root,
      'missing required key "zone"',
      'add zone: Europe/Dublin, or whatever zone its times are in',
    );
  }
  if (isZone(zone)) return zone;
  if (node) {
    sink.add('unknown-zone', node, `${quoted(zone)} is not a time zone`, zoneHint(zone));
  }
  return 'UTC';
};

/** Reads the job in a tree; flaws go to the sink and reading goes on. */
export const readJobTree = (
  root: Node,
  context: JobContext,
  warn: (warning: Warning) => void,
  sink: Sink,
): Job => {
  const zone = readZone(root, context, sink);
  const timeAt = timeReader(zone, warn, sink);
  const instruments = readInstruments(get(root, 'instruments'), sink);
  const { elsewhere, prepared } = context;
  const channels = prepared.channelById;
  const clockAt = clockReader(timeAt, sink);
  const names = instruments.map(({ name }) => name);
  const scope = { elsewhere, timeAt: clockAt, warn, sink, channels, instruments: names };
  for (const { node } of entriesOf(get(root, 'distance'))) readQuantityNode(node, 'km', sink);
  const opened = get(root, 'opened');
  const status = textOf(get(root, 'status'));
  const vehicle = readVehicle(get(root, 'vehicle'), prepared, sink);
  return {
    id: textOf(get(root, 'job')) ?? '',
    title: textOf(get(root, 'title')) ?? '',
    status: status === 'waiting' || status === 'closed' ? status : 'open',
    opened: (opened && timeAt(opened)?.at) ?? 0,
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
    waivers: itemsOf(get(root, 'waivers')).flatMap((node) => readWaiver(node, zone, context, sink)),
    equipment: context.shop?.equipment ?? null,
    terms: context.shop?.terms ?? usualTerms,
  };
};

/** Reports figures of the vehicle for a subject that their check does not judge: they would silently have no effect. */
const checkServiceSubjects = (root: Node, job: Job, prepared: PreparedPacks, sink: Sink): void => {
  const nodes = itemsOf(get(get(root, 'vehicle'), 'service-data')).filter((node) => get(node, 'of'));
  if (nodes.length === 0) return;
  const { early, late } = preparedFor(prepared, job.vehicle);
  const context = checkContext(job, prepared.channelById);
  for (const node of nodes) {
    const ofNode = get(node, 'of');
    const of = textOf(ofNode);
    const plan = [...early, ...late].find(({ check }) => check.id === textOf(get(node, 'check')));
    if (!ofNode || of === undefined || !plan) continue;
    const { check } = plan;
    const findings = kindOf(check).judge(plan, check.parameters, context);
    const known = [...new Set(findings.flatMap((one) => [one.subject, ...one.channels]))];
    if (findings.length === 0 || known.includes(of)) continue;
    sink.add('unknown-name', ofNode, `${check.id} does not judge ${quoted(of)}`, didYouMean(of, known));
  }
};

/**
 * Second half of reading a job: the tree to a job, against its packs. All problems of the file come in one list. Of two
 * problems at one place the first is kept, so those of the reader, which tell more, come before those of the schema.
 */
export const readJob = (file: JobFile, context: JobContext, more: readonly LocatedFlaw[] = []): ReadJob => {
  const sink = makeSink();
  const warnings: Warning[] = [];
  const { root } = file;
  let job: Job | null = null;
  const { first, last } = speakingOrder(file.flaws);
  sink.addAll(first);
  if (root) {
    job = readJobTree(root, context, (warning) => warnings.push(warning), sink);
    checkServiceSubjects(root, job, context.prepared, sink);
    sink.addAll(more);
    sink.addAll(last);
    sink.addAll(schemaFlaws('job', root));
  }
  const problems = locate(file.text, sink.flaws);
  return { job: problems.length > 0 ? null : job, problems, warnings };
};
