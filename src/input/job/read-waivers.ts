import type { Waiver } from '../../core/job.ts';
import { quoted } from '../quoted.ts';
import type { Sink } from '../sink.ts';
import { get, itemsOf, type Node, textOf } from '../yaml/tree.ts';
import { checkHint } from './check-hint.ts';
import type { JobContext } from './job-context.ts';
import { endOfDay } from './read-time.ts';

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

/** The findings that somebody accepted, each until the end of a day in the zone. */
export const readWaivers = (
  list: Node | undefined,
  zone: string,
  context: JobContext,
  sink: Sink,
): Waiver[] => itemsOf(list).flatMap((node) => readWaiver(node, zone, context, sink));
