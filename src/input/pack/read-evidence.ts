import type { CodeMeaning, State } from '../../core/job.ts';
import type { EvidenceGroup, Source, Suspect } from '../../core/suspects/model.ts';
import { type SpaceName, spaces } from '../../core/suspects/spaces.ts';
import type { Sink } from '../sink.ts';
import { get, itemsOf, type Node, textOf } from '../yaml/tree.ts';
import { texts } from './read-channel.ts';

const readSource = (node: Node, sink: Sink): Source => {
  const tells = ['finding', 'corners', 'code-means'].filter((key) => get(node, key));
  if (tells.length !== 1) {
    const message =
      tells.length === 0 ? 'this source names nothing' : `this source names ${tells.join(' and ')}`;
    sink.add('wrong-value', node, message, 'write one of finding:, corners: and code-means: in each source');
  }
  if (get(node, 'code-means'))
    return { kind: 'codes', means: texts(get(node, 'code-means')) as CodeMeaning[] };
  if (get(node, 'corners')) return { kind: 'corners', checks: texts(get(node, 'corners')) };
  return {
    kind: 'finding',
    check: textOf(get(node, 'finding')) ?? '',
    subject: textOf(get(node, 'subject')) ?? null,
    states: texts(get(node, 'in')) as State[],
  };
};

/** The values of a group that does not name them: by corner, by side, or no more than out. */
const usualSpace = (sources: readonly Source[]): SpaceName => {
  if (sources.some(({ kind }) => kind === 'corners')) return 'corners';
  return sources.some(({ kind }) => kind === 'finding') ? 'sides' : 'out';
};

const isTrue = (node: Node | undefined): boolean => node?.kind === 'scalar' && node.value === true;

/** A group of findings that come from one cause. */
export const readEvidence = (node: Node, sink: Sink): EvidenceGroup => {
  const sources = itemsOf(get(node, 'sources')).map((item) => readSource(item, sink));
  const named = textOf(get(node, 'values'));
  const space = (Object.keys(spaces) as SpaceName[]).find((one) => one === named);
  return {
    id: textOf(get(node, 'id')) ?? '',
    title: textOf(get(node, 'title')) ?? '',
    space: space ?? usualSpace(sources),
    sources,
    levelled: isTrue(get(node, 'levelled')),
    refines: isTrue(get(node, 'refines')),
  };
};

/**
 * The groups as their suspects look at them: where none of their signs tells a spring from its corner, a pattern as over a
 * spring is one of its corner.
 */
export const joinUntoldSprings = (
  groups: readonly EvidenceGroup[],
  suspects: readonly Suspect[],
): EvidenceGroup[] => {
  const telling = new Set(
    suspects
      .flatMap(({ expects, confirm }) => [...expects, ...confirm])
      .flatMap(({ group, shows }) => (shows?.includes('spring') ? [group] : [])),
  );
  return groups.map((group) =>
    group.space === 'pattern' && !telling.has(group.id) ? { ...group, space: 'corner-pattern' } : group,
  );
};
