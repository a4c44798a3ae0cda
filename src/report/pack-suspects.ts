import type { Pack } from '../core/pack.ts';
import type {
  Confirmation,
  EvidenceGroup,
  Sign,
  Source,
  Suspect,
  SuspectChance,
  SymptomWords,
} from '../core/suspects/model.ts';
import { oneLine } from './clean.ts';
import { wrap } from './sheet/grid.ts';

const saidText = (words: SymptomWords): string =>
  Object.entries(words)
    .map(([part, any]) => `${part} ${any?.join(' or ') ?? ''}`)
    .join(' and ');

const sourceText = (source: Source): string => {
  switch (source.kind) {
    case 'finding':
      return source.check;
    case 'corners':
      return `${source.checks.join(' or ')}, the corners together`;
    case 'codes':
      return `a code that means ${source.means.join(' or ')}${source.at.length > 0 ? ` at the ${source.at.join(' or ')}` : ''}`;
    case 'code-corners':
      return `the corner of a code that means ${source.means.join(' or ')}`;
    case 'symptom':
      return `the driver says ${source.part} ${source.is.join(' or ')}`;
    case 'said':
      return `${source.word} where the driver says ${saidText(source.words)}`;
    case 'symptom-corners':
      return `where the driver says ${saidText(source.words)}`;
  }
};

/** Each group of evidence with where its value comes from; the first source that was judged decides. */
export const evidenceLines = (evidence: readonly EvidenceGroup[], width: number): string[] =>
  evidence.flatMap(({ id, title, sources }) => [
    ...wrap(oneLine(`${id}: ${title}`), width, 2, 6),
    ...wrap(`by ${sources.map(sourceText).join('; else ')}`, width, 6, 8),
  ]);

/** What must be on record, in words. */
export const confirmText = ({ test, found, group, shows, or }: Confirmation): string =>
  [
    test === null ? `${group} shows ${shows.join(' or ')}` : `${test} finds ${found.join(' or ')}`,
    ...or.map(confirmText),
  ].join(', or ');

const signLines = (signs: readonly Sign[], width: number, indent: number): string[] =>
  signs.flatMap(({ group, shows, how, levelling }) =>
    wrap(
      `${group} shows ${shows.join(' or ')}${levelling ? `, levelling ${levelling}` : ''}: ${how}`,
      width,
      indent,
      indent + 2,
    ),
  );

const suspectLines = (
  { id, title, per, isPart, prior, wrongPart, expects, modes, confirm }: Suspect,
  width: number,
): string[] => [
  ...wrap(
    oneLine(
      `${id}${per === 'vehicle' ? '' : ` (each ${per})`}: ${title}; weight ${prior}; ${isPart ? 'a wrong one' : 'a repair for nothing'} costs ${wrongPart.amount} and ${wrongPart.minutes} min`,
    ),
    width,
    2,
    6,
  ),
  ...signLines(expects, width, 6),
  ...modes.flatMap((mode) => [
    ...wrap(oneLine(`${mode.title} (${mode.share} of all)`), width, 6, 8),
    ...signLines(mode.expects, width, 8),
  ]),
  ...(confirm.length > 0 ? wrap(`confirmed by ${confirm.map(confirmText).join('; ')}`, width, 6, 8) : []),
];

/** Each suspect with what it shows, how often, and what must confirm it. */
export const suspectPageLines = ({ suspects }: Pack, width: number): string[] =>
  suspects.flatMap((suspect) => suspectLines(suspect, width));

/** How probable an outcome of a test is under each suspect. */
export const howText = (how: readonly SuspectChance[] | undefined): string =>
  [...(how ?? [])].map(([suspect, p]) => `${suspect} ${p}`).join(', ');
