import { counts, type Finding, type PatternRemark, weightOrder } from '../../core/finding.ts';
import { oneLine } from '../clean.ts';
import { limitsText, valueAndSpreadText, valueText } from '../numbers.ts';
import type { Style } from '../style.ts';
import { saysText } from '../words/finding-words.ts';
import { patternShares } from '../words/pattern-words.ts';
import { breakable, grid } from './grid.ts';

const rank: Readonly<Record<Finding['verdict'], number>> = {
  out: 0,
  'too-close': 1,
  within: 2,
  'not-taken': 3,
};

/** Worst first: out before too close, heavy before light, and of equals the less likely inside. */
export const worstFirst = (a: Finding, b: Finding): number =>
  (a.waived === null ? 0 : 1) - (b.waived === null ? 0 : 1) ||
  Number(b.newest) - Number(a.newest) ||
  rank[a.verdict] - rank[b.verdict] ||
  weightOrder[a.weight] - weightOrder[b.weight] ||
  (a.inside ?? 0) - (b.inside ?? 0);

/** Findings that a person wants to see: those that say something is wrong or open; all of them with `--all`. */
export const shownFindings = (findings: readonly Finding[], all: boolean): Finding[] =>
  findings
    .filter(
      ({ verdict, newest, intermittent }) =>
        verdict !== 'not-taken' && (all || ((newest || intermittent) && verdict !== 'within')),
    )
    .sort(worstFirst);

/** The verdict in a word or two: `OUT hold`. */
export const label = (finding: Finding): string => {
  if (finding.verdict === 'within') return 'within';
  if (finding.waived !== null) return 'waived';
  if (finding.verdict === 'too-close') return 'close';
  return `OUT ${finding.weight}`;
};

const painted = (finding: Finding, { chalk }: Style): string => {
  const text = label(finding);
  if (!counts(finding)) return finding.verdict === 'too-close' ? chalk.cyan(text) : chalk.dim(text);
  if (finding.weight === 'hold') return chalk.bold.magenta(text);
  return finding.weight === 'look' ? chalk.bold(text) : text;
};

/** A channel that is all that a check is about needs no naming. */
const where = (
  { check, subject, state, channels }: Finding,
  subjects: ReadonlyMap<string, Set<string>>,
): string => {
  const plain = channels.length === 1 && channels[0] === subject && subjects.get(check)?.size === 1;
  return [plain ? '' : subject, state ?? ''].filter((part) => part !== '').join(' ');
};

const subjectsByCheck = (findings: readonly Finding[]): Map<string, Set<string>> => {
  const subjects = new Map<string, Set<string>>();
  for (const { check, subject } of findings) {
    subjects.set(check, (subjects.get(check) ?? new Set()).add(subject));
  }
  return subjects;
};

const basisNote = ({ basis }: Finding): string =>
  `basis: ${basis.kind}${basis.source === null ? '' : ` (${basis.source})`}`;

const sharesNote = ({ remarks }: Finding): string => {
  const pattern = remarks.find((one): one is PatternRemark => one.kind === 'pattern');
  return pattern ? patternShares(pattern) : '';
};

/** Columns of verdict, what, where, reading and what it should be, on a page of 80 columns. */
const usualColumns = [8, 20, 13, 14, 17] as const;

/** The same for a page with less room: all but the verdict give way, each by its share. */
const narrowColumns = (width: number): readonly number[] => {
  const [verdict, ...others] = usualColumns;
  const gaps = 2 * others.length;
  const usual = others.reduce((sum, one) => sum + one, 0);
  const room = Math.min(usual, width - verdict - gaps);
  const [what = 0, ...rest] = others.map((one) => Math.floor((one * room) / usual));
  const left = room - what - rest.reduce((sum, one) => sum + one, 0);
  return [verdict, what + left, ...rest];
};

/** The findings table: what, where, reading, what it should be, and what that means. */
export const findingsTable = (findings: readonly Finding[], style: Style): string => {
  const { options, chalk, text } = style;
  const { width, all } = options;
  // With less room the meaning stands below its finding, across the whole width.
  const wide = width >= 110;
  const columns = wide ? [8, 26, 16, 16, 17] : narrowColumns(width);
  const used = columns.reduce((sum, column) => sum + column + 2, 0);
  const widths = wide ? [...columns, width - used] : columns;
  const subjects = subjectsByCheck(findings);
  let before = '';
  const rows = findings.flatMap((finding) => {
    const { measured, limits } = finding;
    const withSpread = wide || all ? valueAndSpreadText : valueText;
    const reading = measured ? withSpread(measured, options) : '';
    const should = limits && measured ? limitsText(limits, measured.unit, options) : '';
    const notes = [saysText(finding, options), ...(all ? [sharesNote(finding), basisNote(finding)] : [])];
    const own = text(oneLine(notes.filter((note) => note !== '').join('; ')));
    // Four corners with one meaning say it once.
    const meaning = `${finding.check} ${own}` === before ? '' : own;
    before = `${finding.check} ${own}`;
    const cells = [
      painted(finding, style),
      finding.checkTitle,
      breakable(where(finding, subjects), columns[2] ?? 0),
      reading,
      should,
    ].map(text);
    if (wide) return [[...cells, meaning]];
    return meaning === '' ? [cells] : [cells, ['', { content: meaning, colSpan: 4 }]];
  });
  const heads = ['', 'what', 'where', 'reading', 'should be', ...(wide ? ['meaning'] : [])].map((head) =>
    chalk.dim(head),
  );
  return grid([heads, ...rows], widths);
};
