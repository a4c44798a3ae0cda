import { counts, type Finding, weightOrder } from '../../core/finding.ts';
import { oneLine } from '../clean.ts';
import { limitsText, spreadText, valueText } from '../numbers.ts';
import { saysText } from '../says.ts';
import type { Style } from '../style.ts';
import { grid } from './grid.ts';

const rank: Readonly<Record<Finding['verdict'], number>> = {
  out: 0,
  'too-close': 1,
  within: 2,
  'not-taken': 3,
};

/** Worst first: out before too close, heavy before light, and of equals the less likely inside. */
const worstFirst = (a: Finding, b: Finding): number =>
  (a.waived === null ? 0 : 1) - (b.waived === null ? 0 : 1) ||
  Number(b.newest) - Number(a.newest) ||
  rank[a.verdict] - rank[b.verdict] ||
  weightOrder[a.weight] - weightOrder[b.weight] ||
  (a.inside ?? 0) - (b.inside ?? 0);

/** Findings that a person wants to see: those that say something is wrong or open; all of them with `--all`. */
export const shownFindings = (findings: readonly Finding[], all: boolean): Finding[] =>
  findings
    .filter(({ verdict, newest }) => verdict !== 'not-taken' && (all || (newest && verdict !== 'within')))
    .sort(worstFirst);

const label = (finding: Finding): string => {
  if (finding.verdict === 'within') return 'within';
  if (finding.verdict === 'too-close') return 'close';
  return `OUT ${finding.weight}`;
};

const painted = (finding: Finding, { chalk }: Style): string => {
  const text = label(finding);
  if (!counts(finding)) return finding.verdict === 'too-close' ? chalk.cyan(text) : chalk.dim(text);
  if (finding.weight === 'hold') return chalk.bold.magenta(text);
  return finding.weight === 'look' ? chalk.bold(text) : text;
};

const where = ({ subject, state, channels }: Finding): string => {
  const about = channels.length === 1 && channels[0] === subject ? '' : subject;
  return [about, state ?? ''].filter((part) => part !== '').join(' ');
};

const basisNote = ({ basis }: Finding): string =>
  `basis: ${basis.kind}${basis.source === null ? '' : ` (${basis.source})`}`;

/** The findings table: what, where, reading, what it should be, and what that means. */
export const findingsTable = (findings: readonly Finding[], style: Style): string => {
  const { options, chalk, text } = style;
  const { width, all } = options;
  const wide = width >= 100;
  const marks = 9;
  const titles = wide ? 26 : 25;
  const places = wide ? 15 : 14;
  const readings = 16;
  const limits = 16;
  const narrow = [marks, titles, places, readings, width - marks - titles - places - readings - 10];
  const widths = wide
    ? [marks, titles, places, readings, limits, width - marks - titles - places - readings - limits - 12]
    : narrow;
  const rows = findings.flatMap((finding) => {
    const reading = finding.measured
      ? `${valueText(finding.measured, options)}${wide || all ? ` ${spreadText(finding.measured, options)}` : ''}`
      : '';
    const should =
      finding.limits && finding.measured ? limitsText(finding.limits, finding.measured.unit, options) : '';
    const meaning = text(
      oneLine([saysText(finding, options), ...(all ? [basisNote(finding)] : [])].filter(Boolean).join('; ')),
    );
    const cells = [painted(finding, style), finding.checkTitle, where(finding), reading, should].map((cell) =>
      text(cell),
    );
    if (wide) return [[...cells, meaning]];
    return meaning === '' ? [cells] : [cells, ['', { content: meaning, colSpan: 4 }]];
  });
  const heads = ['', 'what', 'where', 'reading', 'should be', ...(wide ? ['meaning'] : [])].map((head) =>
    chalk.dim(head),
  );
  return grid([heads, ...rows], widths);
};
