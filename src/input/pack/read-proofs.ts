import type { Instant } from '../../core/job.ts';
import type { Pack } from '../../core/pack.ts';
import { preparePacks } from '../../core/prepare/prepared-packs.ts';
import { expectedVerdicts } from '../../core/proofs/expectation.ts';
import type { Expectation, Proof } from '../../core/proofs/prove.ts';
import { stepStates } from '../../core/worksheet-parts.ts';
import { readJobTree } from '../job/read-job.ts';
import { readEquipment } from '../job/read-shop.ts';
import { readTime } from '../job/read-time.ts';
import { emptyShop, type Shop } from '../job/shop.ts';
import { locate, type Problem } from '../problem.ts';
import { quoted } from '../quoted.ts';
import { schemaFlaws } from '../schema/schema-check.ts';
import { makeSink, type Sink } from '../sink.ts';
import { didYouMean } from '../suggest.ts';
import { linesOf } from '../yaml/lines.ts';
import {
  type Entry,
  entriesOf,
  fromPlain,
  get,
  itemsOf,
  type MapNode,
  type Node,
  textOf,
} from '../yaml/tree.ts';

/** The vehicle of a proof that describes none. Everything is stated, so that a result depends only on the proof. */
const usualVehicle = {
  name: 'Shuttle 0',
  layout: 'four-corner-air',
  system: '12 V',
  battery: 'flooded',
  charging: 'fixed',
  'sensor-signal': 'analogue',
  'sensor-sense': { LF: 'rising', RF: 'rising', LR: 'rising', RR: 'rising' },
  'sensor-gain': 'equal',
};

const snapshotKeys: ReadonlySet<string> = new Set([
  'id',
  'at',
  'state',
  'conditions',
  'readings',
  'lamp',
  'codes',
  'note',
]);
const usualTime = '2026-01-05T09:00';

const mapOf = (start: number, ...sources: readonly (readonly Entry[])[]): MapNode => ({
  kind: 'map',
  start,
  end: start,
  flow: false,
  entries: new Map(sources.flat().map((entry) => [entry.key, entry])),
});

const plainEntries = (value: object, start: number): Entry[] => entriesOf(fromPlain(value, start));

const entry = (key: string, node: Node): Entry => ({ key, keyStart: node.start, node });

/** The whole job that a proof's few lines stand for. */
const jobTree = (given: Node): Node => {
  const { start } = given;
  const own = entriesOf(given);
  const single = own.filter(({ key }) => snapshotKeys.has(key));
  const first = mapOf(start, plainEntries({ id: 'given', at: usualTime, state: 'key-on' }, start), single);
  const listed = itemsOf(get(given, 'snapshots')).map((node, index) =>
    mapOf(
      node.start,
      plainEntries({ id: `given-${index + 1}`, at: usualTime, state: 'key-on' }, node.start),
      entriesOf(node),
    ),
  );
  const snapshots = [...(single.length > 0 ? [first] : []), ...listed];
  const vehicle = mapOf(start, plainEntries(usualVehicle, start), entriesOf(get(given, 'vehicle')));
  const rest = own.filter(({ key }) => ['log', 'instruments', 'costs'].includes(key));
  return mapOf(
    start,
    plainEntries(
      { worksheet: 1, job: 'proof', title: 'proof', opened: usualTime, zone: 'UTC', status: 'open' },
      start,
    ),
    [
      entry('vehicle', vehicle),
      entry('snapshots', { kind: 'list', items: snapshots, start, end: start, flow: false }),
    ],
    rest,
  );
};

const shopOf = (given: Node): Shop | null => {
  const equipment = get(given, 'equipment');
  return equipment ? { ...emptyShop, equipment: readEquipment(equipment) } : null;
};

/** What a proof can expect, by what it is about; of a check a weight, a word and a quantity may follow. */
const expectable: Readonly<Record<Expectation['about'], readonly string[]>> = {
  check: expectedVerdicts,
  step: [...stepStates, 'absent'],
  'hold-point': ['clear', 'not-clear', 'absent'],
};

const readExpectation = (key: string, subject: string, node: Node, pack: Pack, sink: Sink): Expectation => {
  const value = textOf(node) ?? '';
  const about = key === 'steps' ? 'step' : key === 'hold-points' ? 'hold-point' : 'check';
  const [first = ''] = value.split(' ');
  const known = expectable[about];
  if (!known.includes(about === 'check' ? first : value))
    sink.add(
      'wrong-value',
      node,
      `a ${about.replace('-', ' ')} is never ${quoted(value)}`,
      didYouMean(first, known, `it can be ${known.join(', ')}`),
    );
  if (about !== 'check') return { about, name: subject, subject: '', value };
  return { about, name: key.includes('/') ? key : `${pack.id}/${key}`, subject, value };
};

const readExpectations = (node: Node | undefined, pack: Pack, sink: Sink): Expectation[] =>
  entriesOf(node).flatMap(({ key, node: values }) =>
    entriesOf(values).map(({ key: subject, node: value }) =>
      readExpectation(key, subject, value, pack, sink),
    ),
  );

/** When a proof is judged unless it says so: a minute after the newest time that it mentions. */
const lastTime = (tree: Node): Instant => {
  const times = [...itemsOf(get(tree, 'snapshots')), ...itemsOf(get(tree, 'log'))].map((node) => {
    const read = readTime(textOf(get(node, 'at')) ?? '', 'UTC');
    return read.ok ? read.stamp.at : 0;
  });
  return Math.max(0, ...times) + 60_000;
};

/**
 * Reads the proofs of a pack into jobs.
 *
 * @param others packs that a proof may ask for by `with`, by id
 */
export const readProofs = (
  text: string,
  file: string,
  root: Node,
  pack: Pack,
  others: ReadonlyMap<string, Pack>,
): { readonly proofs: readonly Proof[]; readonly problems: readonly Problem[] } => {
  const sink = makeSink();
  const { lineOf } = linesOf(text);
  const checks = new Set([pack, ...others.values()].flatMap((one) => one.checks.map(({ id }) => id)));
  const proofs = itemsOf(get(root, 'proofs')).flatMap((node): Proof[] => {
    const given = get(node, 'given');
    if (!given) return [];
    const withPacks = itemsOf(get(node, 'with')).flatMap((item) => {
      const other = others.get(textOf(item) ?? '');
      if (!other)
        sink.add(
          'unknown-pack',
          item,
          `no pack is called ${quoted(textOf(item) ?? '')}`,
          didYouMean(textOf(item) ?? '', [...others.keys()], 'name another pack of the library'),
        );
      return other ? [other] : [];
    });
    const prepared = preparePacks([pack, ...withPacks], []);
    const tree = jobTree(given);
    const context = {
      prepared,
      shop: shopOf(given),
      elsewhere: new Map<string, string>(),
      sameDefinition: () => true,
    };
    const job = readJobTree(tree, context, () => undefined, sink);
    sink.addAll(schemaFlaws('job', tree));
    const asOfNode = get(node, 'as-of');
    const asOfText = textOf(asOfNode);
    const asOf = asOfText === undefined ? null : readTime(asOfText, 'UTC');
    if (asOf && !asOf.ok && asOfNode) sink.add(asOf.code, asOfNode, asOf.message, asOf.hint);
    const expect = readExpectations(get(node, 'expect'), pack, sink);
    const wrong = expect.find(({ about, name }) => about === 'check' && !checks.has(name));
    if (wrong)
      sink.add(
        'unknown-name',
        get(node, 'expect') ?? node,
        `no check is called ${quoted(wrong.name)}`,
        didYouMean(
          wrong.name,
          [...checks],
          "name a check of this pack, or another pack's with its pack before it",
        ),
      );
    return [
      {
        says: textOf(get(node, 'says')) ?? null,
        line: lineOf(node.start),
        job,
        prepared,
        asOf: asOf?.ok ? asOf.stamp.at : lastTime(tree),
        expect,
      },
    ];
  });
  return { proofs, problems: locate(text, sink.flaws, file) };
};
