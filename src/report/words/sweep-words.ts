import type { PackNotice } from '../../core/sweep/pack-notices.ts';
import {
  type Change,
  type DatedEnd,
  isJudged,
  type JudgedRow,
  type LastGood,
  type Row,
  type RowFinding,
  type RowNow,
  type RowProblem,
} from '../../core/sweep/row.ts';
import { type Severity, severities } from '../../core/sweep/row-order.ts';
import { oneLine } from '../clean.ts';
import type { SweepRendering } from '../sweep/rendering.ts';
import { timeText } from '../times.ts';

/** What is worst about a row, in words. */
export const severityWords: Readonly<Record<Severity, string>> = {
  'cannot-be-judged': 'cannot be judged',
  hold: 'hold',
  look: 'look',
  note: 'note',
  'not-clear': 'hold point not clear',
  outstanding: 'only steps outstanding',
  clear: 'nothing outstanding',
};

/** `1 job`, `3 jobs`. */
export const many = (count: number, what: string): string => `${count} ${what}${count === 1 ? '' : 's'}`;

/** A finding with what it is about: `Left against right (rear key-on)`. */
export const findingText = ({ id, title, state, verdict }: RowFinding): string => {
  const about = [id.slice(id.indexOf(':') + 1), state].filter(Boolean).join(' ');
  return oneLine(`${verdict === 'too-close' ? 'close: ' : ''}${title} (${about})`);
};

/** The findings of a job that count, the heaviest first. */
export const counting = ({ findings }: JudgedRow): RowFinding[] =>
  findings.filter(({ waived }) => waived === null);

/** The titles of the hold points that are not clear. */
export const notClear = ({ holdPoints }: JudgedRow): string[] =>
  holdPoints.filter(({ clear }) => !clear).map(({ title }) => oneLine(title));

/** What is worst about a job, where no finding is. */
export const restText = (row: JudgedRow): string => {
  const [point] = notClear(row);
  if (point !== undefined) return `not clear: ${point}`;
  return row.steps.length > 0 ? `${many(row.steps.length, 'step')} outstanding` : 'nothing out';
};

/** The worst of a job: a finding and how many more, or what else is not as it should be. */
export const worstText = (row: JudgedRow): string => {
  const [worst, ...more] = counting(row);
  if (!worst) return restText(row);
  const says = worst.says === '' ? '' : `: ${oneLine(worst.says)}`;
  return `${findingText(worst)}${says}${more.length > 0 ? `; and ${more.length} more` : ''}`;
};

/** What to do now, and how long it takes. */
export const nowText = ({ title, minutes }: RowNow): readonly [title: string, minutes: string] => [
  oneLine(title),
  minutes > 0 ? `, ${Math.round(minutes)} min` : '',
];

/** Something that ended or ends soon, loudly where an accepted finding counts again. */
export const endText = ({ kind, what, at, until, reason, ended }: DatedEnd, zone: string): string => {
  const day = until ?? timeText(at, zone);
  const why = reason === null ? '' : ` (${reason})`;
  if (kind === 'access') return oneLine(`access for ${what} ${ended ? 'ended' : 'ends'} ${day}`);
  return oneLine(ended ? `WAIVER ENDED ${day}: ${what}${why}` : `waiver of ${what} ends after ${day}${why}`);
};

/** What ended and what ends soon. */
export const ending = ({ ends }: JudgedRow): DatedEnd[] => ends.filter(({ ended, soon }) => ended || soon);

/** At most so many changes are told of a row; the rest are counted. */
const mostChanges = 3;

/** What became of a row since the earlier sweep; null where nothing did, or where there was none. */
export const changeText = (change: Change | null, all: boolean): string | null => {
  if (change === null || change.kind === 'unchanged') return null;
  const told = all ? change.says : change.says.slice(0, mostChanges);
  const more = change.says.length - told.length;
  const says = [...told, ...(more > 0 ? [`${more} more`] : [])].map(oneLine).join('; ');
  return says === '' ? change.kind : `${change.kind}: ${says}`;
};

/** `jobs/s07.yaml:3:5`, where a problem stands. */
export const placeText = (file: string, { file: other, line, column }: RowProblem): string =>
  oneLine([other ?? file, ...(line === null ? [] : column === null ? [line] : [line, column])].join(':'));

/** What is wrong with a file, and how much more. */
export const problemText = (problems: readonly RowProblem[]): string => {
  const [first] = problems;
  const more = problems.length - 1;
  return (
    oneLine(first?.message ?? 'cannot be judged') + (more > 0 ? `; and ${many(more, 'more problem')}` : '')
  );
};

/** What is to be known of a pack, loud where the rows are not to be believed without it. */
export const noticeText = ({ kind, id, version, was, jobs }: PackNotice): string => {
  const concerns = `: ${many(jobs, 'job')}`;
  if (kind === 'replaced')
    return oneLine(`PACK REPLACED ${id} ${version} is not the published one${concerns}`);
  if (kind === 'other-bytes')
    return oneLine(
      `PACK CHANGED ${id} ${version} differs from the earlier night under the same version${concerns}`,
    );
  return oneLine(`pack ${id} ${version}, on the earlier night ${was}${concerns}`);
};

/** The last that was known of a file that cannot be judged; null where nothing is. */
export const lastText = (last: LastGood | null): string | null => {
  if (last === null) return null;
  const now = (last.now as { readonly title?: unknown } | null | undefined)?.title;
  const said = [last.vehicle, last.level ?? 'nothing out', last.title, now]
    .filter((one) => typeof one === 'string')
    .join(', ');
  return oneLine(`last judged ${String(last.asOf).slice(0, 10)}: ${said}`);
};

/** The warnings of a row, or how many there are. */
export const warningsText = (row: Row, all: boolean): string | null => {
  if (!isJudged(row) || row.warnings.length === 0) return null;
  return all
    ? row.warnings.map((one) => `warning: ${oneLine(one)}`).join(' · ')
    : many(row.warnings.length, 'warning');
};

const said = (counts: readonly (readonly [number, string])[]): string =>
  counts
    .filter(([count]) => count > 0)
    .map(([count, what]) => `${count} ${what}`)
    .join(', ');

/** What a sweep was stopped at; null where it is whole. */
export const stoppedText = ({ stopped }: SweepRendering): string | null =>
  stopped && `STOPPED EARLY: only ${stopped.done} of ${many(stopped.of, 'file')} were looked at`;

/** The totals beside those by severity: a name and what it comes to, only what is not nought. */
export const otherTotals = (rendering: SweepRendering): (readonly [name: string, says: string])[] => {
  const { totals, leftOut, withinDays, compared } = rendering;
  const { status, changes } = totals;
  const lines: (readonly [string, string])[] = [
    [
      'Status',
      said([
        [status.open, 'open'],
        [status.waiting, 'waiting'],
        [status.closed, 'closed'],
      ]),
    ],
    [
      'Waivers and access',
      said([
        [totals.ended, 'ended'],
        [totals.endingSoon, `to end within ${many(withinDays, 'day')}`],
      ]),
    ],
    [
      'Since the earlier sweep',
      compared
        ? said([
            [changes.new, 'new'],
            [changes.changed, 'changed'],
            [changes.gone, 'gone'],
            [changes.unchanged, 'unchanged'],
          ])
        : '',
    ],
    [
      'Not shown',
      said([
        [leftOut.unchanged, 'unchanged'],
        [leftOut.closed, 'closed'],
        [leftOut.filtered, 'not asked for'],
        [leftOut.notJobs, leftOut.notJobs === 1 ? 'YAML file that is no job' : 'YAML files that are no jobs'],
      ]),
    ],
  ];
  return lines.filter(([, says]) => says !== '');
};

/** How many rows stand at each severity, the worst first; only where there are any. */
export const bySeverity = ({ totals }: SweepRendering): (readonly [Severity, number])[] =>
  severities.filter((one) => totals.by[one] > 0).map((one) => [one, totals.by[one]]);

/** When a sweep was made, and whether against an earlier one. */
export const headingText = ({ asOf, zone, compared }: SweepRendering): string =>
  `Sweep as of ${timeText(asOf, zone)} ${zone}${compared ? ', against the earlier one' : ''}`;

/** What a sweep without a row says. */
export const nothingText = ({ leftOut, compared, totals }: SweepRendering): string => {
  if (compared && leftOut.unchanged > 0) return `Nothing changed in ${many(totals.files, 'job')}.`;
  return leftOut.closed + leftOut.filtered + leftOut.notJobs > 0
    ? 'No job to show: all were left out.'
    : 'No job to show: none was found.';
};
