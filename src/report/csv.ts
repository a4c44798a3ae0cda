import type { Finding } from '../core/finding.ts';
import type { Worksheet } from '../core/worksheet.ts';
import type { Problem } from '../input/problem.ts';
import { csvLines } from './csv-cells.ts';
import type { Result } from './json/json.ts';
import { saysText } from './words/finding-words.ts';

const { head, line: rowText } = csvLines([
  ...['file', 'job', 'vehicle', 'status', 'finding', 'check', 'snapshot', 'subject', 'verdict', 'weight'],
  ...['current', 'stale', 'waived', 'value', 'expanded', 'unit', 'low', 'high', 'inside', 'says'],
  ...['problem', 'line', 'column'],
] as const);

const findingRow = (file: string, { job }: Worksheet, finding: Finding): string =>
  rowText({
    file,
    job: job.id,
    vehicle: job.vehicle.name,
    status: job.status,
    finding: finding.id,
    check: finding.check,
    snapshot: finding.snapshot,
    subject: finding.subject,
    verdict: finding.verdict,
    weight: finding.weight,
    current: finding.current,
    stale: finding.stale,
    waived: finding.waived === null ? null : finding.waived.until,
    value: finding.measured?.value ?? null,
    expanded: finding.measured?.expanded ?? null,
    unit: finding.measured?.unit ?? null,
    low: finding.limits?.low ?? null,
    high: finding.limits?.high ?? null,
    inside: finding.inside,
    says: saysText(finding),
  });

const problemRow = (file: string, { code, message, hint, line, column }: Problem): string =>
  rowText({ file, says: hint === null ? message : `${message}; ${hint}`, problem: code, line, column });

/** A line for every finding and for every problem of a file, with a head, by RFC 4180; numbers at full precision. */
export const renderCsv = (results: readonly Result[]): string =>
  [
    head,
    ...results.flatMap(({ file, sheet, problems }) =>
      sheet
        ? sheet.findings.map((finding) => findingRow(file, sheet, finding))
        : (problems ?? []).map((problem) => problemRow(problem.file ?? file, problem)),
    ),
  ].join('');
