import type { Act } from '../../core/acts.ts';
import type { HoldPoint, Step } from '../../core/pack.ts';
import type { LogPattern } from '../../core/steps/condition.ts';
import type { Sink } from '../sink.ts';
import { get, itemsOf, type Node, numberOf, textOf } from '../yaml/tree.ts';
import { checkCautions, texts } from './read-channel.ts';
import { readCondition, readPattern, stepsAskedBy } from './read-condition.ts';

const patterns = (node: Node | undefined, sink: Sink): LogPattern[] =>
  itemsOf(node).map((item) => readPattern(item, sink));

const condition = (node: Node | undefined, sink: Sink): ReturnType<typeof readCondition> | null =>
  node ? readCondition(node, sink) : null;

/** A step of a pack; `after` and `behind` name steps and hold points of any pack. */
export const readStep = (node: Node, pack: string, cautions: readonly string[], sink: Sink): Step => {
  checkCautions(node, cautions, sink);
  const name = textOf(get(node, 'id')) ?? '';
  const when = condition(get(node, 'when'), sink);
  const answeredIf = condition(get(node, 'answered-if'), sink);
  const undoneIf = condition(get(node, 'undone-if'), sink);
  for (const [key, asked] of [
    ['when', when],
    ['answered-if', answeredIf],
    ['undone-if', undoneIf],
  ] as const) {
    const at = get(node, key);
    if (asked && at && stepsAskedBy(asked).length > 0) {
      const hint = 'order steps with after:, and ask for steps only in hold points';
      sink.add('wrong-value', at, 'a step cannot hang on whether another is done', hint);
    }
  }
  const each = textOf(get(node, 'each'));
  return {
    id: `${pack}/${name}`,
    name,
    base: name,
    each: each === 'fault' || each === 'work' ? each : null,
    title: textOf(get(node, 'title')) ?? '',
    needs: textOf(get(node, 'needs')) ?? null,
    when,
    after: texts(get(node, 'after')),
    behind: textOf(get(node, 'behind')) ?? null,
    answeredBy: patterns(get(node, 'answered-by'), sink),
    answeredIf,
    undoneBy: patterns(get(node, 'undone-by'), sink),
    undoneIf,
    minutes: numberOf(get(node, 'minutes')) ?? 0,
    elapsed: numberOf(get(node, 'elapsed')) ?? 0,
    recheckDays: numberOf(get(get(node, 'recheck'), 'days')),
    paidAccess: textOf(get(node, 'paid-access')) === 'true',
    points: texts(get(node, 'points')),
    cautions: texts(get(node, 'cautions')),
    cautionsFor: itemsOf(get(node, 'cautions-for')).map((item) => {
      checkCautions(item, cautions, sink);
      return { components: texts(get(item, 'components')), cautions: texts(get(item, 'cautions')) };
    }),
    acts: texts(get(node, 'acts')) as Act[],
  };
};

/** A moment that must not pass until its evidence is there. */
export const readHoldPoint = (
  node: Node,
  pack: string,
  cautions: readonly string[],
  sink: Sink,
): HoldPoint => {
  checkCautions(node, cautions, sink);
  const clearNode = get(node, 'clear-when');
  return {
    id: textOf(get(node, 'id')) ?? '',
    pack,
    title: textOf(get(node, 'title')) ?? '',
    when: condition(get(node, 'when'), sink),
    clearWhen: clearNode ? readCondition(clearNode, sink) : { any: [] },
    cautions: texts(get(node, 'cautions')),
  };
};
