import type { Finding, Missing } from '../../core/finding.ts';
import { factsWanted } from '../../core/wanted/vehicle-facts.ts';
import type { Worksheet } from '../../core/worksheet.ts';
import { oneLine } from '../clean.ts';
import type { Style } from '../style.ts';
import { missingText } from '../words/finding-words.ts';
import { fitting } from './fitting.ts';
import { wrap } from './grid.ts';
import { isOfVehicle } from './not-taken-lines.ts';

const readingWanted: ReadonlySet<Missing['why']> = new Set(['no-reading', 'no-snapshot']);

/** `charging voltage (running)`, or why it could not be judged. */
const itemOf = (finding: Finding, missing: Missing, style: Style): string => {
  const title = finding.checkTitle;
  if (missing.why === 'no-reading' || missing.why === 'no-snapshot')
    return `${title} (${missing.states.length > 2 ? 'any state' : missing.states.join(' or ')})`;
  return `${title} (${missingText(missing, style.options)})`;
};

/** Checks that still want something, those first that a reading alone would answer. */
const items = ({ findings }: Pick<Worksheet, 'findings'>, style: Style): string[] => {
  const open = findings.filter(
    (one) =>
      one.verdict === 'not-taken' && one.wanted && one.waived === null && one.missing && !isOfVehicle(one),
  );
  const byTitle = new Map<string, Finding>();
  for (const one of open) if (!byTitle.has(one.checkTitle)) byTitle.set(one.checkTitle, one);
  return [...byTitle.values()]
    .sort(
      (a, b) =>
        Number(b.missing && readingWanted.has(b.missing.why)) -
        Number(a.missing && readingWanted.has(a.missing.why)),
    )
    .flatMap((one) => (one.missing ? [itemOf(one, one.missing, style)] : []));
};

/** What is not known and would help, on one line; null where nothing is wanted. */
export const notKnownPart = (sheet: Worksheet, style: Style): string | null => {
  const { chalk, text, options } = style;
  const all = [...factsWanted(sheet).map((fact) => fact.replaceAll('-', ' ')), ...items(sheet, style)].map(
    (one) => text(oneLine(one)),
  );
  if (all.length === 0) return null;
  const label = 'Not known: ';
  const shown = fitting(all, options.width - label.length);
  return wrap(label + shown, options.width, 0, 2)
    .join('\n')
    .replace(label, `${chalk.bold(label.trimEnd())} `);
};
