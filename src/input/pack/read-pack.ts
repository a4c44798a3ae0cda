import type { Act } from '../../core/acts.ts';
import { readBasis } from '../../core/checks/common.ts';
import { kinds } from '../../core/checks/kinds/index.ts';
import type { Path } from '../../core/flaw.ts';
import { type Layout, type State, states } from '../../core/job.ts';
import type { Channel, Check, Pack, Rename, Says, Test } from '../../core/pack.ts';
import { findCycle } from '../../core/steps/step-order.ts';
import { locate, type Problem, speakingOrder } from '../problem.ts';
import { quoted } from '../quoted.ts';
import { packsToCompile } from '../schema/compiled-pack-schemas.ts';
import { validators } from '../schema/generated/pack-validators.js';
import { schemaCheck } from '../schema/schema-check.ts';
import { makeSink, type Sink } from '../sink.ts';
import { didYouMean } from '../suggest.ts';
import { readYaml } from '../yaml/read-yaml.ts';
import { get, itemsOf, type Node, numberOf, textOf, toPlain } from '../yaml/tree.ts';
import { definitionOf, type RawCheck } from './check-definition.ts';
import { checkCautions, readChannel, readComponent, texts } from './read-channel.ts';
import { readPattern } from './read-condition.ts';
import { readActUse, readAsk, readDanger, readDangerTerms } from './read-dangers.ts';
import { readEvidence } from './read-evidence.ts';
import { readHoldPoint, readStep } from './read-steps.ts';
import { readSuspect, readSuspectTerms, type SuspectScope } from './read-suspects.ts';
import { readTestTerms, suspectNames } from './read-test-terms.ts';

export interface ReadPack {
  /** Null exactly where there are problems. */
  readonly pack: Pack | null;
  /** The proofs as they stand, for `read-proofs.ts`. */
  readonly root: Node | null;
  readonly problems: readonly Problem[];
}

const schemaFlaws = schemaCheck(validators, packsToCompile);

const readCheck = (
  node: Node,
  pack: string,
  channels: ReadonlyMap<string, Channel>,
  checks: readonly string[],
  cautions: readonly string[],
  takesSpans: boolean,
  sink: Sink,
): Check | null => {
  const kindName = textOf(get(node, 'kind'));
  const kind = kinds.find((one) => one.kind === kindName);
  if (!kind) return null;
  const flaws = schemaFlaws(`check:${kind.kind}`, node);
  sink.addAll(flaws);
  if (flaws.length > 0) return null;
  const raw = toPlain(node) as RawCheck;
  const report = (flaw: Parameters<Sink['addFlaw']>[0]): void => sink.addFlaw(flaw, node);
  const basisPath: Path = ['basis'];
  const basis = readBasis(raw.basis as Parameters<typeof readBasis>[0], basisPath, report);
  const says = (raw.says ?? {}) as Says;
  const concerns = get(node, 'concerns');
  const parameters = kind.read(raw, { channels, checks, basis, says, flaw: report });
  const needs = (raw.needs ?? {}) as Check['needs'];
  const unless = (raw.unless ?? {}) as Check['unless'];
  return {
    id: `${pack}/${String(raw.id)}`,
    kind: kind.kind,
    title: String(raw.title),
    states: (raw.in as State[] | undefined) ?? states,
    needs,
    unless,
    only: (raw.only ?? {}) as Check['only'],
    layouts: (raw.layouts as Layout[] | undefined) ?? null,
    decision: raw.decision === 'simple' ? 'simple' : 'guarded',
    basis,
    says,
    wanted: raw.wanted === 'in-test' ? 'in-test' : 'always',
    concerns: concerns ? readPattern(concerns, sink) : null,
    moment: raw.moment === true,
    intermittent: raw.intermittent === true,
    danger: readDangerTerms(get(node, 'danger'), cautions, sink),
    takesSpans,
    definition: definitionOf(takesSpans ? { ...raw, jumping: 'taken' } : raw),
    unit: kind.unit(parameters),
    parameters,
  };
};

const outcomeIds = (test: Node): string[] =>
  itemsOf(get(test, 'outcomes')).map((item) => textOf(get(item, 'id')) ?? '');

const readTest = (node: Node, cautions: readonly string[], suspects: SuspectScope, sink: Sink): Test => {
  checkCautions(node, cautions, sink);
  checkUnique(itemsOf(get(node, 'outcomes')), 'outcome of this test', sink);
  return {
    ...readComponent(node),
    minutes: numberOf(get(node, 'minutes')) ?? 0,
    outcomes: itemsOf(get(node, 'outcomes')).map((item) => ({
      id: textOf(get(item, 'id')) ?? '',
      title: textOf(get(item, 'title')) ?? '',
    })),
    points: texts(get(node, 'points')),
    cautions: texts(get(node, 'cautions')),
    acts: texts(get(node, 'acts')) as Act[],
    ...readTestTerms(node, suspects),
  };
};

const checkUnique = (nodes: readonly Node[], what: string, sink: Sink): void => {
  const seen = new Set<string>();
  for (const node of nodes) {
    const idNode = get(node, 'id');
    const id = textOf(idNode);
    if (id !== undefined && idNode && seen.has(id)) {
      sink.add(
        'duplicate-id',
        idNode,
        `another ${what} is called ${quoted(id)}`,
        'give this one its own name',
      );
    }
    if (id !== undefined) seen.add(id);
  }
};

const checkCycle = (nodes: readonly Node[], sink: Sink): void => {
  const after = new Map(nodes.map((node) => [textOf(get(node, 'id')) ?? '', texts(get(node, 'after'))]));
  const cycle = findCycle(after);
  if (!cycle) return;
  const first = nodes.find((node) => textOf(get(node, 'id')) === cycle[0]);
  const at = get(first, 'after') ?? first;
  if (at) {
    sink.add(
      'step-cycle',
      at,
      `these steps wait for one another: ${cycle.join(' → ')}`,
      'remove one of them from its after: list',
    );
  }
};

/** Checks that a pack which gives minutes states their basis, once for the whole pack. */
const checkMinutes = (root: Node, sink: Sink): void => {
  const timed = ['steps', 'channels', 'tests'].flatMap((key) => [...itemsOf(get(root, key))]);
  const has = timed.some((node) => get(node, 'minutes') !== undefined);
  if (has && !get(root, 'minutes-basis')) {
    sink.add(
      'missing-key',
      root,
      'this pack gives minutes without a basis',
      'add minutes-basis: {kind: from-memory}',
    );
  }
};

/** A check of this pack that had another name, or one that went to another pack. */
const readRename = (
  node: Node,
  all: readonly Node[],
  pack: string,
  checks: readonly string[],
  sink: Sink,
): Rename => {
  const toNode = get(node, 'to');
  const to = textOf(toNode) ?? '';
  const own = checks.map((check) => `${pack}/${check}`);
  // A check that had several names is renamed step by step.
  const goesOn = all.some((one) => textOf(get(one, 'from')) === to);
  if (toNode && to.startsWith(`${pack}/`) && !own.includes(to) && !goesOn) {
    sink.add('unknown-name', toNode, `this pack has no check ${quoted(to)}`, didYouMean(to, own));
  }
  const from = textOf(get(node, 'from')) ?? '';
  if (own.includes(from)) {
    sink.add('wrong-value', node, `${from} is still a check of this pack`, 'rename only what is gone');
  }
  return { from, to };
};

/** Reads a rule pack; all that is wrong with it comes in one list that bears the pack's file. */
export const readPack = (text: string, file: string, sha256: string): ReadPack => {
  const { root, flaws } = readYaml(text);
  const sink = makeSink();
  const { first, last } = speakingOrder(flaws);
  sink.addAll(first);
  let pack: Pack | null = null;
  if (root) {
    const id = textOf(get(root, 'pack')) ?? '';
    const nodes = (key: string): readonly Node[] => itemsOf(get(root, key));
    const components = nodes('components').map(readComponent);
    const cautions = nodes('cautions').map((node) => ({
      id: textOf(get(node, 'id')) ?? '',
      text: textOf(get(node, 'text')) ?? '',
    }));
    const channels = nodes('channels').map((node) => readChannel(node, components, cautions, sink));
    const byId = new Map(channels.map((channel) => [channel.id, channel]));
    const known = cautions.map((one) => one.id);
    const checkNames = nodes('checks').map((node) => textOf(get(node, 'id')) ?? '');
    for (const key of [
      'components',
      'channels',
      'checks',
      'steps',
      'hold-points',
      'tests',
      'evidence',
      'cautions',
    ] as const) {
      checkUnique(nodes(key), key.replace(/s$/u, '').replace('-', ' '), sink);
    }
    const takesSpans = textOf(get(root, 'jumping-readings')) === 'taken';
    // One suspect may stand for the whole vehicle and another of its name for each axle.
    for (const ofAxles of [true, false])
      checkUnique(
        nodes('suspects').filter((node) => (readComponent(node).per === 'axle') === ofAxles),
        'suspect',
        sink,
      );
    checkCycle(nodes('steps'), sink);
    checkMinutes(root, sink);
    const evidence = nodes('evidence').map((node) => readEvidence(node, sink));
    const scope: SuspectScope = {
      groups: evidence,
      suspects: nodes('suspects').flatMap(suspectNames),
      tests: new Map(nodes('tests').map((node) => [textOf(get(node, 'id')) ?? '', outcomeIds(node)])),
      sink,
    };
    const suspects = nodes('suspects').map((node) => readSuspect(node, scope));
    pack = {
      id,
      version: textOf(get(root, 'version')) ?? '',
      sha256,
      title: textOf(get(root, 'title')) ?? '',
      changes: textOf(get(root, 'changes')) ?? '',
      components,
      channels,
      checks: nodes('checks')
        .map((node) => readCheck(node, id, byId, checkNames, known, takesSpans, sink))
        .filter((check) => check !== null),
      steps: nodes('steps').map((node) => readStep(node, id, known, sink)),
      holdPoints: nodes('hold-points').map((node) => readHoldPoint(node, id, known, sink)),
      tests: nodes('tests').map((node) => readTest(node, known, scope, sink)),
      evidence,
      suspects,
      suspectTerms: readSuspectTerms(root, sink),
      renames: nodes('renames').map((node) => readRename(node, nodes('renames'), id, checkNames, sink)),
      cautions,
      dangers: nodes('dangers').map((node) => readDanger(node, known, sink)),
      actUses: nodes('act-uses').map(readActUse),
      asks: nodes('asks').map((node) => readAsk(node, sink)),
      rechecks: texts(get(root, 'rechecks')),
      always: get(root, 'always') ? texts(get(root, 'always')) : null,
    };
    sink.addAll(last);
    sink.addAll(schemaFlaws('pack', root));
  }
  const problems = locate(text, sink.flaws, file);
  return { pack: problems.length > 0 ? null : pack, root, problems };
};
