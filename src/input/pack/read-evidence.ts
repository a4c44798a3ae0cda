import type { CodeMeaning, CodePlace, State, SymptomPart } from '../../core/job.ts';
import { symptomWords } from '../../core/job.ts';
import { type SpaceName, spaces, type Values } from '../../core/suspects/evidence/spaces.ts';
import type { EvidenceGroup, Source, SymptomWords } from '../../core/suspects/model.ts';
import { quoted } from '../quoted.ts';
import type { Sink } from '../sink.ts';
import { didYouMean } from '../suggest.ts';
import { entriesOf, get, itemsOf, type Node, numberOf, textOf } from '../yaml/tree.ts';
import { texts } from './read-channel.ts';

const keys = [
  'finding',
  'corners',
  'code-means',
  'code-corners',
  'symptom',
  'said',
  'symptom-corners',
] as const;

/** The words of a symptom that a source is about; unknown ones are reported. */
const readSymptom = (node: Node, sink: Sink): Source => {
  const part = (textOf(get(node, 'symptom')) ?? 'sits') as SymptomPart;
  const known: readonly string[] = symptomWords[part];
  for (const item of itemsOf(get(node, 'is'))) {
    const word = textOf(item) ?? '';
    if (!known.includes(word)) {
      const hint = didYouMean(word, known, `it can be ${known.join(', ')}`);
      sink.add('unknown-name', item, `a driver does not say ${quoted(word)} of ${part}`, hint);
    }
  }
  if (!get(node, 'is'))
    sink.add('missing-key', node, 'this does not name the words that count', `add is: [${known[0]}]`);
  return { kind: 'symptom', part, is: texts(get(node, 'is')) };
};

const readWords = (node: Node | undefined): SymptomWords =>
  Object.fromEntries(entriesOf(node).map(({ key, node: words }) => [key, texts(words)]));

const readSource = (node: Node, sink: Sink): Source => {
  const tells = keys.filter((key) => get(node, key));
  if (tells.length !== 1) {
    const message =
      tells.length === 0 ? 'this source names nothing' : `this source names ${tells.join(' and ')}`;
    sink.add(
      'wrong-value',
      node,
      message,
      `write one of ${keys.map((key) => `${key}:`).join(', ')} in each source`,
    );
  }
  switch (tells[0]) {
    case 'code-means':
      return {
        kind: 'codes',
        means: texts(get(node, 'code-means')) as CodeMeaning[],
        at: texts(get(node, 'at')) as CodePlace[],
      };
    case 'code-corners':
      return { kind: 'code-corners', means: texts(get(node, 'code-corners')) as CodeMeaning[] };
    case 'corners':
      return { kind: 'corners', checks: texts(get(node, 'corners')) };
    case 'symptom':
      return readSymptom(node, sink);
    case 'said':
      return { kind: 'said', word: textOf(get(node, 'said')) ?? '', words: readWords(get(node, 'of')) };
    case 'symptom-corners':
      return { kind: 'symptom-corners', words: readWords(get(node, 'symptom-corners')) };
    default:
      return {
        kind: 'finding',
        check: textOf(get(node, 'finding')) ?? '',
        subject: textOf(get(node, 'subject')) ?? null,
        states: texts(get(node, 'in')) as State[],
      };
  }
};

/** The values of a group that does not name them: by corner, by side, or no more than out. */
const usualSpace = (sources: readonly Source[]): SpaceName => {
  const kinds = sources.map(({ kind }) => kind);
  if (kinds.some((kind) => kind === 'corners' || kind === 'code-corners' || kind === 'symptom-corners'))
    return 'corners';
  return kinds.includes('finding') ? 'sides' : 'out';
};

/** The values that a group can show: a named space, or its own words with the good one first. */
const readValues = (node: Node | undefined, sources: readonly Source[], sink: Sink): Values => {
  const words = texts(node);
  if (words.length > 0) {
    if (words.length < 2)
      sink.add('wrong-value', node as Node, 'a group shows two things at least', 'write [good, bad]');
    return { space: 'words', values: words };
  }
  const names = Object.keys(spaces) as SpaceName[];
  const named = textOf(node);
  const space = names.find((one) => one === named) ?? usualSpace(sources);
  if (node && named !== undefined && space !== named)
    sink.add('unknown-name', node, `there are no values called ${quoted(named)}`, didYouMean(named, names));
  return { space, values: spaces[space] };
};

/** The word that a source says must be one of the group's values, and it must tell what the driver says. */
const checkSaid = (node: Node, { values }: Values, sink: Sink): void => {
  const said = get(node, 'said');
  if (!said) return;
  const word = textOf(said) ?? '';
  if (!values.includes(word))
    sink.add('unknown-name', said, `the group has no value ${quoted(word)}`, didYouMean(word, values));
  if (!get(node, 'of'))
    sink.add(
      'missing-key',
      node,
      'this does not say which words count',
      'add of: {where: [all], sits: [low]}',
    );
};

const isTrue = (node: Node | undefined): boolean => node?.kind === 'scalar' && node.value === true;

/** A group of findings that come from one cause. */
export const readEvidence = (node: Node, sink: Sink): EvidenceGroup => {
  const sources = itemsOf(get(node, 'sources')).map((item) => readSource(item, sink));
  const id = textOf(get(node, 'id')) ?? '';
  const per = textOf(get(node, 'per'));
  const own = readValues(get(node, 'values'), sources, sink);
  for (const item of itemsOf(get(node, 'sources'))) checkSaid(item, own, sink);
  return {
    id,
    base: id,
    per: per === 'corner' || per === 'axle' ? per : 'vehicle',
    place: null,
    title: textOf(get(node, 'title')) ?? '',
    ...own,
    sources,
    levelled: isTrue(get(node, 'levelled')),
    refines: isTrue(get(node, 'refines')),
    follows: texts(get(node, 'follows')),
    byChance: numberOf(get(node, 'by-chance')),
  };
};
