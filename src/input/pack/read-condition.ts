import type { CodeMeaning, Layout, State, Verb, Weight } from '../../core/job.ts';
import { verbs } from '../../core/job.ts';
import type { Verdict } from '../../core/readings/verdict.ts';
import {
  type Condition,
  type Fact,
  type LogPattern,
  type Mark,
  partQuestions,
} from '../../core/steps/condition.ts';
import { quoted } from '../quoted.ts';
import type { Sink } from '../sink.ts';
import { didYouMean } from '../suggest.ts';
import { entriesOf, get, itemsOf, type MapNode, type Node, numberOf, textOf } from '../yaml/tree.ts';

const verdicts: readonly Verdict[] = ['within', 'out', 'too-close', 'not-taken'];

/** A word or a list of words. */
const words = (node: Node | undefined): string[] => {
  const one = textOf(node);
  if (one !== undefined) return [one];
  return itemsOf(node)
    .map(textOf)
    .filter((text) => text !== undefined);
};

const closed = <T extends string>(
  node: Node | undefined,
  known: readonly T[],
  what: string,
  sink: Sink,
): T[] => {
  const typed = words(node);
  const found = typed.filter((word): word is T => (known as readonly string[]).includes(word));
  const wrong = typed.find((word) => !(known as readonly string[]).includes(word));
  if (wrong !== undefined && node) {
    sink.add(
      'wrong-value',
      node,
      `${quoted(wrong)} is not a ${what}`,
      didYouMean(wrong, known, `it can be ${known.join(', ')}`),
    );
  }
  return found;
};

/** `{did: replaced, what: sensor}`; both may be lists, and `work` stands for every verb that changes the vehicle. */
export const readPattern = (node: Node, sink: Sink): LogPattern => ({
  did: closed<Verb | 'work'>(get(node, 'did'), [...verbs, 'work'], 'verb of the log', sink),
  what: get(node, 'what') ? words(get(node, 'what')) : null,
});

type Reader = (node: Node, whole: MapNode, sink: Sink) => Fact;

/** One reader a fact, by the key that tells it; the keys in `also` belong to it. */
const facts: Readonly<Record<string, { readonly also: readonly string[]; readonly read: Reader }>> = {
  did: { also: ['what'], read: (_, whole, sink) => ({ fact: 'log', pattern: readPattern(whole, sink) }) },
  finding: {
    also: ['verdict', 'subject'],
    read: (node, whole, sink) => ({
      fact: 'finding',
      check: textOf(node) ?? '',
      verdict: get(whole, 'verdict') ? closed(get(whole, 'verdict'), verdicts, 'verdict', sink) : ['out'],
      subject: textOf(get(whole, 'subject')) ?? null,
    }),
  },
  'no-finding': {
    also: [],
    read: (node) => ({
      fact: 'no-finding',
      weight: (textOf(get(node, 'weight')) ?? 'hold') as Weight,
      packs: get(node, 'packs') ? words(get(node, 'packs')) : null,
      exceptMeans: words(get(node, 'except-means')) as CodeMeaning[],
      exceptChecks: words(get(node, 'except-checks')),
      currentOnly: textOf(get(node, 'stale')) === 'left-out',
    }),
  },
  'code-means': { also: [], read: (node) => ({ fact: 'code-means', means: words(node) as CodeMeaning[] }) },
  taken: {
    also: ['when'],
    read: (node, whole) => ({
      fact: 'taken',
      states: words(node) as State[],
      mark: (textOf(get(whole, 'when')) ?? null) as Mark | null,
    }),
  },
  'code-list': {
    also: ['state'],
    read: (node, whole) => {
      const mark = textOf(node) ?? 'ever';
      const state = textOf(get(whole, 'state')) ?? null;
      return {
        fact: 'code-list',
        mark: mark === 'ever' ? null : (mark as Mark),
        state: state as State | null,
      };
    },
  },
  conditions: {
    also: ['where-read', 'in'],
    read: (node, whole) => ({
      fact: 'conditions',
      words: Object.fromEntries(entriesOf(node).map(({ key, node: value }) => [key, textOf(value) ?? ''])),
      channels: words(get(whole, 'where-read')),
      states: words(get(whole, 'in')) as State[],
    }),
  },
  layout: { also: [], read: (node) => ({ fact: 'layout', layouts: words(node) as Layout[] }) },
  step: { also: [], read: (node) => ({ fact: 'step', steps: words(node) }) },
  steps: { also: [], read: (node) => ({ fact: 'steps', except: words(get(node, 'except')) }) },
  cost: {
    also: [],
    read: (node) => ({
      fact: 'cost',
      is: textOf(node) === 'authorised' ? 'authorised' : 'within-authorised',
    }),
  },
  part: {
    also: [],
    read: (node) => ({
      fact: 'part',
      is: partQuestions.find((one) => one === textOf(node)) ?? 'in-question',
    }),
  },
  evidence: { also: [], read: () => ({ fact: 'evidence', is: 'fresh' }) },
  waivers: { also: [], read: () => ({ fact: 'waivers', is: 'none-ended' }) },
  access: { also: [], read: (node) => ({ fact: 'access', capability: textOf(node) ?? '' }) },
  stated: {
    also: ['newest'],
    read: (node, whole) => ({
      fact: 'stated',
      words: Object.fromEntries(entriesOf(node).map(({ key, node: value }) => [key, words(value)])),
      newest: textOf(get(whole, 'newest')) === 'true',
    }),
  },
  moved: {
    also: ['over'],
    read: (node, whole) => ({
      fact: 'moved',
      channel: textOf(node) ?? '',
      over: numberOf(get(whole, 'over')) ?? 0,
    }),
  },
  faults: {
    also: [],
    read: (node) => ({ fact: 'faults', is: textOf(node) === 'confirmed' ? 'confirmed' : 'none' }),
  },
  proof: { also: [], read: () => ({ fact: 'proof', is: 'complete' }) },
};

/** Keys that tell what a condition asks for; one stands in each. */
const telling: ReadonlySet<string> = new Set(['all', 'any', 'not', ...Object.keys(facts)]);
const known: ReadonlySet<string> = new Set([...telling, ...Object.values(facts).flatMap(({ also }) => also)]);

/** Takes the place of a condition that could not be read, so that reading goes on. */
const never: Condition = { any: [] };

/**
 * Reads a condition: `all`, `any` or `not` over others, or exactly one fact. A pack is data; there is nothing here
 * that could compute, read or repeat.
 */
export const readCondition = (node: Node, sink: Sink): Condition => {
  // The schema reports what is not a map, and keys that belong to no fact.
  if (node.kind !== 'map' || [...node.entries.keys()].some((key) => !known.has(key))) return never;
  const tells = [...node.entries.keys()].filter((key) => telling.has(key));
  const [key] = tells;
  if (key === undefined || tells.length > 1) {
    const [message, hint] =
      key === undefined
        ? ['this condition asks for nothing', 'write a fact such as {did: replaced, what: sensor}']
        : [`this asks for ${tells.join(' and ')} at once`, 'join them with all: or any:'];
    sink.add('wrong-value', node, message, hint);
    return never;
  }
  const value = node.entries.get(key)?.node ?? node;
  const also = facts[key]?.also ?? [];
  const stray = [...node.entries.values()].find((entry) => entry.key !== key && !also.includes(entry.key));
  if (stray) {
    sink.add(
      'unknown-key',
      stray.keyStart,
      `${quoted(stray.key)} says nothing beside "${key}"`,
      'join several with all: or any:',
    );
  }
  if (key === 'all') return { all: itemsOf(value).map((item) => readCondition(item, sink)) };
  if (key === 'any') return { any: itemsOf(value).map((item) => readCondition(item, sink)) };
  if (key === 'not') return { not: readCondition(value, sink) };
  return facts[key]?.read(value, node, sink) ?? never;
};

/** Steps that a condition asks about, for checking that they exist and where they may be asked. */
export const stepsAskedBy = (condition: Condition): string[] => {
  if ('all' in condition) return condition.all.flatMap(stepsAskedBy);
  if ('any' in condition) return condition.any.flatMap(stepsAskedBy);
  if ('not' in condition) return stepsAskedBy(condition.not);
  if (condition.fact === 'step') return [...condition.steps];
  return condition.fact === 'steps' ? [...condition.except] : [];
};
