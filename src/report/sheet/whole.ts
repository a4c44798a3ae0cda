import type { Worksheet } from '../../core/worksheet.ts';
import { suspectsBrief } from '../next/brief.ts';
import { nowLines } from '../now/now-lines.ts';
import type { Style } from '../style.ts';
import { beforeAfterTable } from './comparison.ts';
import { cornersTable } from './corners.ts';
import { findingsTable, shownFindings } from './findings.ts';
import { footer } from './footer.ts';
import { wrap } from './grid.ts';
import { mayLeaveLines } from './head.ts';
import { heading, judgedWith, warningLines } from './heading.ts';
import { holdPointsList } from './hold-points.ts';
import { leadsList } from './leads.ts';
import { notTakenList } from './not-taken-lines.ts';
import { cautionsList, stepsList } from './steps.ts';
import { summary } from './summary.ts';

/**
 * Everything that there is to say of one job, for people: `--all`.
 *
 * @param file the job file as it was named, for the line to type
 */
export const renderWhole = (sheet: Worksheet, file: string, style: Style): string => {
  const { chalk, text, options } = style;
  const shown = shownFindings(sheet.findings, options.all);
  const sections = [
    [
      heading(sheet, style),
      judgedWith(sheet, style),
      ...mayLeaveLines(sheet, style),
      ...warningLines(sheet, style),
    ].join('\n'),
    nowLines(sheet, file, style),
    [
      ...wrap(text(`Findings: ${summary(sheet.findings)}`), options.width, 0, 2).map((line) =>
        chalk.bold(line),
      ),
      ...(shown.length > 0 ? [findingsTable(shown, style)] : []),
    ].join('\n'),
    leadsList(sheet.job, style),
    beforeAfterTable(sheet.beforeAfter, style),
    cornersTable(sheet, style),
    suspectsBrief(sheet, style),
    notTakenList(sheet.findings, style),
    stepsList(sheet, style),
    cautionsList(sheet, style),
    holdPointsList(sheet, style),
    footer(style),
  ];
  return `${sections.filter((section) => section !== null).join('\n\n')}\n`;
};
