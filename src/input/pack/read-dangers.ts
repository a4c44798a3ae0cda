import { type Act, acts } from '../../core/acts.ts';
import type { ConditionName, State } from '../../core/job.ts';
import { type ActUse, type Ask, type Danger, type DangerTerms, statedDangers } from '../../core/pack.ts';
import { quoted } from '../quoted.ts';
import type { Sink } from '../sink.ts';
import { didYouMean } from '../suggest.ts';
import { get, type Node, textOf } from '../yaml/tree.ts';
import { checkCautions, texts } from './read-channel.ts';
import { readCondition } from './read-condition.ts';

/** What a danger forbids: every act where it does not say. */
const termsOf = (node: Node): DangerTerms => ({
  forbids: get(node, 'forbids') ? (texts(get(node, 'forbids')) as Act[]) : acts,
  afterRetake: textOf(get(node, 'after-retake')) === 'true',
  cautions: texts(get(node, 'cautions')),
});

/** Whether what a check finds is a danger: `true`, or what it forbids. */
export const readDangerTerms = (
  node: Node | undefined,
  cautions: readonly string[],
  sink: Sink,
): DangerTerms | null => {
  if (node === undefined || textOf(node) === 'false') return null;
  checkCautions(node, cautions, sink);
  return termsOf(node);
};

/** A danger that a pack names: a check of any pack, or what a job states. */
export const readDanger = (node: Node, cautions: readonly string[], sink: Sink): Danger => {
  const ofNode = get(node, 'of');
  const of = textOf(ofNode) ?? '';
  if (ofNode && !of.includes('/') && !(statedDangers as readonly string[]).includes(of)) {
    const hint = didYouMean(of, statedDangers, `name a check as pack/check, or ${statedDangers.join(', ')}`);
    sink.add('unknown-name', ofNode, `${quoted(of)} is no danger that a job can state`, hint);
  }
  checkCautions(node, cautions, sink);
  return { of, ...termsOf(node) };
};

/** Tests and steps that involve an act. */
export const readActUse = (node: Node): ActUse => ({
  act: (textOf(get(node, 'act')) ?? 'drive') as Act,
  tests: texts(get(node, 'tests')),
  steps: texts(get(node, 'steps')),
});

/** Readings to ask for before any test: not taken yet (`read`), or to be taken again (`again`). */
export const readAsk = (node: Node, sink: Sink): Ask => {
  const again = get(node, 'again');
  const read = get(node, 'read');
  if ((again === undefined) === (read === undefined)) {
    const hint = 'write read: and the channels not taken yet, or again: and those to take once more';
    sink.add('missing-key', node, 'an ask names what to read', hint);
  }
  const when = get(node, 'when');
  return {
    id: textOf(get(node, 'id')) ?? '',
    title: textOf(get(node, 'title')) ?? '',
    kind: again ? 'again' : 'read',
    channels: texts(again ?? read),
    conditions: texts(get(node, 'conditions')) as ConditionName[],
    state: (textOf(get(node, 'in')) ?? 'key-on') as State,
    when: when ? readCondition(when, sink) : { any: [] },
  };
};
