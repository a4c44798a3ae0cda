import { counts, type Finding, weightOrder } from '../../core/finding.ts';
import type { Weight } from '../../core/job.ts';
import { type FailLevel, fails, levelOf } from '../../core/level.ts';
import { openWaits } from '../../core/steps/waiting.ts';
import type { RowEnd, RowFinding, RowNow, Standing } from '../../core/sweep/row.ts';
import type { BriefWorksheet } from '../../core/worksheet.ts';
import type { WorksheetStep } from '../../core/worksheet-parts.ts';
import { oneLine } from '../clean.ts';
import { reasonLines } from '../sheet/hold-points.ts';
import { waitedFor } from '../sheet/steps.ts';
import { saysText } from '../words/finding-words.ts';
import { nowReasons, nowTitle } from '../words/now-words.ts';
import { warningText } from '../words/reason-words.ts';

type Listed = Finding & { readonly verdict: RowFinding['verdict'] };

/** The weight at which a finding stands in a row; null where it does not: only what is out or too close does. */
const listedAt = (finding: Finding): Weight | null => {
  if (finding.verdict !== 'out' && finding.verdict !== 'too-close') return null;
  if (finding.waived !== null && counts({ ...finding, waived: null })) return finding.weight;
  return levelOf(finding);
};

const rowFinding = (finding: Listed, weight: Weight): RowFinding => ({
  id: `${finding.check}:${finding.subject}`,
  state: finding.state,
  title: finding.checkTitle,
  verdict: finding.verdict,
  weight,
  says: oneLine(saysText(finding)),
  waived: finding.waived && {
    reason: finding.waived.reason,
    by: finding.waived.by,
    until: finding.waived.until,
  },
});

/** What counts before what was accepted, heavy before light, out before too close. */
const heaviestFirst = (a: RowFinding, b: RowFinding): number =>
  Number(a.waived !== null) - Number(b.waived !== null) ||
  weightOrder[a.weight] - weightOrder[b.weight] ||
  Number(a.verdict !== 'out') - Number(b.verdict !== 'out');

const rowFindings = (findings: readonly Finding[]): RowFinding[] => {
  const listed: RowFinding[] = [];
  // Few of many do.
  for (const finding of findings) {
    const weight = listedAt(finding);
    if (weight !== null) listed.push(rowFinding(finding as Listed, weight));
  }
  return listed.sort(heaviestFirst);
};

const isOpen = ({ state }: WorksheetStep): boolean => state === 'ready' || state === 'waiting';

const rowNow = ({ now, job }: BriefWorksheet): RowNow => ({
  kind: now.kind,
  id: now.id,
  title: oneLine(nowTitle(now)),
  because: oneLine(nowReasons(now, job.zone)),
  minutes: now.minutes,
  elapsed: now.elapsed,
  cautions: now.cautions.map(oneLine),
  command: now.command,
  for: now.for,
});

const somebody = ({ job }: BriefWorksheet): string[] =>
  openWaits(job).map(({ what, waitsFor }) => oneLine(waitsFor ?? what ?? 'something not named'));

/** What ends of itself and still matters: waivers, and access that an outstanding step needs. */
const endsOf = ({ job }: BriefWorksheet, open: readonly WorksheetStep[]): RowEnd[] => [
  ...job.waivers
    .filter(({ isVoid }) => !isVoid)
    .map(
      ({ finding, ends, until, reason }): RowEnd => ({
        kind: 'waiver',
        what: finding,
        at: ends,
        until,
        reason: oneLine(reason),
      }),
    ),
  ...job.costs.lines.flatMap(({ kind, what, ends }): RowEnd[] =>
    kind === 'access' && ends !== null && open.some(({ needs }) => needs === what)
      ? [{ kind: 'access', what, at: ends, until: null, reason: null }]
      : [],
  ),
];

/** What a sweep keeps of a worksheet. */
export const standingOf = (sheet: BriefWorksheet, failOn: FailLevel): Standing => {
  const { job, holdPoints, steps, warnings, findings, packs } = sheet;
  const replaced = warnings.flatMap((warning) => (warning.kind === 'pack-replaced' ? [warning.pack] : []));
  const open = steps.filter(isOpen);
  const waiting = open.find(({ id, state }) => state === 'waiting' && id === sheet.now.id);
  const waitsFor = [...somebody(sheet), ...(waiting ? waitedFor(waiting, sheet).map(oneLine) : [])];
  return {
    job: job.id,
    title: oneLine(job.title),
    vehicle: oneLine(job.vehicle.name),
    status: job.status,
    zone: job.zone,
    opened: job.opened,
    fails: fails(findings, failOn),
    findings: rowFindings(findings),
    holdPoints: holdPoints
      // One that holds nothing is a reminder, which only the sheet of the job shows.
      .filter(({ holds }) => holds)
      .map(({ id, title, clear, reasons }) => ({
        id,
        title: oneLine(title),
        clear,
        reason: clear ? null : oneLine(reasonLines(reasons, job.zone, true)[0] ?? ''),
      })),
    steps: open.map(({ id, title, state }) => ({
      id,
      title: oneLine(title),
      state: state === 'ready' ? 'ready' : 'waiting',
    })),
    now: rowNow(sheet),
    waitsFor: [...new Set(waitsFor)],
    ends: endsOf(sheet, open),
    warnings: warnings
      .filter(({ kind }) => kind !== 'assumed')
      .map((warning) => oneLine(warningText(warning, job.zone))),
    packs: packs.map(({ id, version, sha256 }) => ({ id, version, sha256, replaced: replaced.includes(id) })),
  };
};
