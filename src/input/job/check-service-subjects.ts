import { checkContext } from '../../core/checks/check-context.ts';
import { kindOf } from '../../core/checks/kinds/index.ts';
import type { Job } from '../../core/job.ts';
import { type PreparedPacks, preparedFor } from '../../core/prepare/prepared-packs.ts';
import { quoted } from '../quoted.ts';
import type { Sink } from '../sink.ts';
import { didYouMean } from '../suggest.ts';
import { get, itemsOf, type Node, textOf } from '../yaml/tree.ts';

/** Reports figures of the vehicle for a subject that their check does not judge: they would silently have no effect. */
export const checkServiceSubjects = (root: Node, job: Job, prepared: PreparedPacks, sink: Sink): void => {
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
