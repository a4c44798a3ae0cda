import type { Finding } from '../../core/finding.ts';
import type { Snapshot } from '../../core/job.ts';
import { isOpen } from '../../core/steps/readings-wanted.ts';
import type { BriefWorksheet } from '../../core/worksheet.ts';
import { findingsTable, shownFindings } from '../sheet/findings.ts';
import { wrap } from '../sheet/grid.ts';
import { isOfVehicle, notTakenList } from '../sheet/not-taken-lines.ts';
import { outGroups } from '../sheet/out-groups.ts';
import { groupLines } from '../sheet/out-part.ts';
import { summary } from '../sheet/summary.ts';
import type { Style } from '../style.ts';

/** What could not be judged for another reason than that a reading is missing, in the state of this snapshot. */
const unjudged = (sheet: BriefWorksheet, snapshot: Snapshot): Finding[] =>
  sheet.findings.filter(
    (finding) =>
      finding.readIn.some((one) => one === snapshot.state) &&
      ((finding.missing !== null && finding.wanted && isOpen(finding.missing)) ||
        (isOfVehicle(finding) && finding.channels.some((key) => snapshot.readings.has(key)))),
  );

/** The findings of one snapshot: what is out or too close, and what its conditions do not let anybody judge. */
export const snapshotFindings = (sheet: BriefWorksheet, id: string, style: Style): string => {
  const { chalk, text, options } = style;
  const own = sheet.findings.filter(({ snapshot }) => snapshot === id);
  const snapshot = sheet.job.snapshots.find((one) => one.id === id);
  const shown = shownFindings(own, options.all);
  const table = shown.length > 0 ? [findingsTable(shown, style)] : [];
  const lines = outGroups(own, options).flatMap((group) => groupLines(group, style));
  const open = snapshot ? notTakenList(unjudged(sheet, snapshot), style, 'Not judged') : null;
  return [
    ...wrap(text(`Findings of ${id}: ${summary(own)}`), options.width, 0, 2).map((line) => chalk.bold(line)),
    ...(options.all ? table : lines),
    ...(open === null ? [] : ['', open]),
  ].join('\n');
};
