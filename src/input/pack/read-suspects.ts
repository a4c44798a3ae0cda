import type { Layout } from '../../core/job.ts';
import type { Per } from '../../core/key.ts';
import { ownNames } from '../../core/suspects/confirmed.ts';
import type {
  Confirmation,
  EvidenceGroup,
  Mode,
  Sign,
  Suspect,
  SuspectTerms,
} from '../../core/suspects/model.ts';
import { strengths } from '../../core/suspects/strengths.ts';
import { usualDowntime } from '../../core/suspects/suspect-model.ts';
import { quoted } from '../quoted.ts';
import type { Sink } from '../sink.ts';
import { didYouMean } from '../suggest.ts';
import { get, itemsOf, type Node, numberOf, textOf } from '../yaml/tree.ts';
import { readComponent, texts } from './read-channel.ts';

/** Reads a probability given as a word or a number. What is neither is reported, and `never` takes its place. */
export const readStrength = (node: Node | undefined, sink: Sink): number => {
  const number = numberOf(node);
  if (number !== null && node) {
    if (number >= 0 && number <= 1) return number;
    sink.add(
      'wrong-value',
      node,
      `${number} is no probability`,
      'write a number from 0 to 1, or a word such as usually',
    );
    return strengths.never;
  }
  const word = textOf(node);
  const known = Object.entries(strengths).find(([name]) => name === word);
  if (known) return known[1];
  if (node && word !== undefined) {
    const words = Object.keys(strengths);
    const hint = didYouMean(word, words, `write one of ${words.join(', ')}, or a number from 0 to 1`);
    sink.add('wrong-value', node, `${quoted(word)} does not say how often`, hint);
  }
  return strengths.never;
};

/** The names of a scalar or a list. */
const words = (node: Node | undefined): string[] => {
  const single = textOf(node);
  return single === undefined ? texts(node) : [single];
};

/** The layouts that something is for; null for every one. */
export const layoutsOf = (node: Node): readonly Layout[] | null =>
  get(node, 'layouts') ? (texts(get(node, 'layouts')) as Layout[]) : null;

/** What else in the pack its suspects and tests may name. */
export interface SuspectScope {
  readonly groups: readonly EvidenceGroup[];
  /** Their names, and those of each corner where they are per corner. */
  readonly suspects: readonly string[];
  /** Outcomes of each test. */
  readonly tests: ReadonlyMap<string, readonly string[]>;
  readonly sink: Sink;
}

/** A name must be one of those that the pack has. */
export const checkKnown = (
  node: Node | undefined,
  names: readonly string[],
  what: string,
  sink: Sink,
): void => {
  const name = textOf(node);
  if (!node || name === undefined || names.includes(name)) return;
  const hint = didYouMean(name, names, names.length > 0 ? `this pack has ${names.join(', ')}` : null);
  sink.add('unknown-name', node, `this pack has no ${what} ${quoted(name)}`, hint);
};

/** The words that stand for values at a suspect's own place. */
const ownWords = (per: Per, values: readonly string[]): string[] => {
  const own: string[] = values.includes('LF') ? ['any'] : [];
  if (per === 'corner' && values.includes('LF')) own.push('own', 'corner');
  if (per === 'corner' && values.includes('spring-LF')) own.push('own-spring');
  if (per === 'axle' && values.includes('low-front')) own.push('own-low', 'own-high');
  if (per === 'axle' && values.includes('front')) own.push('own');
  return own;
};

/** Each value must be one that the group can have; `own` is a corner suspect's own. */
const checkShows = (node: Node, per: Per, { groups, sink }: SuspectScope): void => {
  const group = groups.find(({ id }) => id === textOf(get(node, 'group')));
  const showsNode = get(node, 'shows');
  if (!group || !showsNode) return;
  // A direction may be left open.
  const open = group.space === 'sides' ? ['out'] : [];
  const allowed = [...ownWords(per, group.values), ...group.values, ...open];
  for (const shows of words(showsNode)) {
    if (allowed.includes(shows)) continue;
    const hint = didYouMean(shows, allowed, `it can be ${allowed.join(', ')}`);
    sink.add('unknown-name', showsNode, `${group.id} cannot show ${quoted(shows)}`, hint);
  }
};

/** What must be on record before something is done. */
export const readConfirmation = (node: Node, per: Per, scope: SuspectScope): Confirmation => {
  const { groups, tests, sink } = scope;
  const test = textOf(get(node, 'test')) ?? null;
  const group = textOf(get(node, 'group')) ?? null;
  checkKnown(get(node, 'test'), [...tests.keys()], 'test', sink);
  checkKnown(
    get(node, 'group'),
    groups.map(({ id }) => id),
    'group of evidence',
    sink,
  );
  checkShows(node, per, scope);
  const foundNode = get(node, 'found');
  const found = words(foundNode);
  const outcomes = test === null ? [] : (tests.get(test) ?? found);
  const own = per === 'corner' ? outcomes.flatMap(ownNames) : [];
  const strange = found.find((one) => !outcomes.includes(one) && !own.includes(one));
  if (foundNode && strange !== undefined) {
    const message = `${test ?? 'no test'} cannot find ${quoted(strange)}`;
    sink.add('unknown-name', foundNode, message, didYouMean(strange, outcomes));
  }
  const whole = (test !== null && found.length > 0) || (group !== null && get(node, 'shows') !== undefined);
  if (!whole) {
    const hint = 'write {test: NAME, found: OUTCOME}, or {group: NAME, shows: VALUE}';
    sink.add('missing-key', node, 'this does not say what must be on record', hint);
  }
  const or = itemsOf(get(node, 'or')).map((item) => readConfirmation(item, per, scope));
  return { test, found, group, shows: words(get(node, 'shows')), or };
};

const readSign = (node: Node, per: Per, scope: SuspectScope): Sign => {
  checkKnown(
    get(node, 'group'),
    scope.groups.map(({ id }) => id),
    'group of evidence',
    scope.sink,
  );
  checkShows(node, per, scope);
  const levelling = textOf(get(node, 'levelling'));
  return {
    group: textOf(get(node, 'group')) ?? '',
    shows: words(get(node, 'shows')),
    how: readStrength(get(node, 'how'), scope.sink),
    levelling: levelling === 'active' || levelling === 'off' ? levelling : null,
    at: get(node, 'at') ? (texts(get(node, 'at')) as Sign['at']) : null,
  };
};

/** Reports a suspect whose probabilities within one group add up to more than 1. */
const checkSums = (node: Node, expects: readonly Sign[], sink: Sink): void => {
  const sumOf = (group: string, levelling: Sign['levelling'], elsewhere: boolean): number =>
    expects
      .filter(
        (sign) =>
          sign.group === group &&
          (sign.levelling === null || sign.levelling === levelling) &&
          (sign.at?.includes('other') ?? false) === elsewhere,
      )
      .reduce((total, { how }) => total + how, 0);
  for (const group of new Set(expects.map((sign) => sign.group))) {
    const sum = Math.max(
      ...[true, false].flatMap((elsewhere) => [
        sumOf(group, 'active', elsewhere),
        sumOf(group, 'off', elsewhere),
      ]),
    );
    if (sum > 1 + 1e-9) {
      const message = `what it shows of ${group} adds up to ${Math.round(sum * 100) / 100}`;
      sink.add('wrong-value', node, message, 'the shares of one group add up to 1 at most');
    }
  }
};

/** How many times likelier earlier work on a component makes its suspects. Judgement, from memory. */
const usualRaise = 5;

/** A look at a component takes so long, and an eye sees so often that it is at fault. Judgement, from memory. */
const usualLook = { minutes: 3, sees: 0.35 };

const readInspect = (node: Node | undefined, sink: Sink): Suspect['inspect'] => ({
  minutes: numberOf(get(node, 'minutes')) ?? usualLook.minutes,
  sees: get(node, 'sees') ? readStrength(get(node, 'sees'), sink) : usualLook.sees,
});

const readSigns = (node: Node | undefined, per: Per, scope: SuspectScope): Sign[] =>
  itemsOf(node).map((item) => readSign(item, per, scope));

/** The ways in which a suspect fails; their shares must add up to 1. */
const readModes = (
  node: Node | undefined,
  per: Per,
  general: readonly Sign[],
  scope: SuspectScope,
): readonly Mode[] => {
  const modes = itemsOf(node).map((item): Mode => {
    const at = textOf(get(item, 'per')) === 'corner' ? 'corner' : per;
    const expects = readSigns(get(item, 'expects'), at, scope);
    const own = new Set(expects.map(({ group }) => group));
    checkSums(
      get(item, 'expects') ?? item,
      [...expects, ...general.filter(({ group }) => !own.has(group))],
      scope.sink,
    );
    return {
      id: textOf(get(item, 'id')) ?? '',
      title: textOf(get(item, 'title')) ?? '',
      share: numberOf(get(item, 'share')) ?? 0,
      perCorner: textOf(get(item, 'per')) === 'corner',
      expects,
    };
  });
  const sum = modes.reduce((total, { share }) => total + share, 0);
  if (node && modes.length > 0 && Math.abs(sum - 1) > 1e-6) {
    const message = `the shares of its modes add up to ${Math.round(sum * 100) / 100}`;
    scope.sink.add('wrong-value', node, message, 'the shares of all modes of a suspect add up to 1');
  }
  return modes;
};

/** A part or a condition that could be at fault. */
export const readSuspect = (node: Node, scope: SuspectScope): Suspect => {
  const { id, title, per } = readComponent(node);
  const wrong = get(node, 'wrong-part');
  const { sink } = scope;
  const priorNode = get(node, 'prior');
  const prior = numberOf(priorNode) ?? 1;
  if (priorNode && prior === 0) {
    sink.add(
      'wrong-value',
      priorNode,
      'what can never be at fault is no suspect',
      'write a weight such as 4',
    );
  }
  const expects = readSigns(get(node, 'expects'), per, scope);
  checkSums(get(node, 'expects') ?? node, expects, sink);
  return {
    id,
    title,
    per,
    layouts: layoutsOf(node),
    prior,
    raisedBy: texts(get(node, 'raised-by')),
    raise: numberOf(get(node, 'raise')) ?? usualRaise,
    wrongPart: {
      amount: numberOf(get(wrong, 'amount')) ?? 0,
      minutes: numberOf(get(wrong, 'minutes')) ?? 0,
    },
    confirm: itemsOf(get(node, 'confirm')).map((item) => readConfirmation(item, per, scope)),
    component: textOf(get(node, 'component')) ?? id,
    isPart: textOf(get(node, 'part')) !== 'false',
    isCoded: textOf(get(node, 'coded')) === 'true',
    repaired: textOf(get(node, 'repair')) !== 'none',
    inspect: readInspect(get(node, 'inspect'), scope.sink),
    modes: readModes(get(node, 'modes'), per, expects, scope),
    expects,
  };
};

/** What a pack says of its suspects as a whole; null where it has none. Their numbers have one basis. */
export const readSuspectTerms = (root: Node, sink: Sink): SuspectTerms | null => {
  if (itemsOf(get(root, 'suspects')).length === 0) return null;
  if (!get(root, 'suspects-basis')) {
    const message = 'this pack gives priors, likelihoods and costs without a basis';
    sink.add('missing-key', root, message, 'add suspects-basis: {kind: from-memory}');
  }
  const shareNode = get(get(root, 'something-else'), 'share');
  const share = numberOf(shareNode);
  if (shareNode && share !== null && (share <= 0 || share >= 1)) {
    sink.add(
      'wrong-value',
      shareNode,
      `${share} is no share of all`,
      'write a share between 0 and 1, such as 0.07',
    );
  }
  return {
    ...(share === null ? {} : { somethingElse: share }),
    escalate: numberOf(get(get(root, 'escalate'), 'amount')),
    usualRate: numberOf(get(get(root, 'usual-rate'), 'amount')),
    downtime: numberOf(get(get(root, 'downtime'), 'amount')) ?? usualDowntime,
  };
};
