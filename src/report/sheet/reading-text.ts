import type { Finding } from '../../core/finding.ts';
import type { Reading } from '../../core/job.ts';
import { quantityOf } from '../../core/readings/units.ts';
import { valueText } from '../numbers.ts';
import type { ReportOptions, Style } from '../style.ts';

/** Whether the shop has a unit of its own for what was judged. */
const isConverted = ({ measured }: Finding, { pressureUnit, temperatureUnit }: ReportOptions): boolean => {
  const quantity = measured === null ? null : quantityOf(measured.unit);
  return quantity === 'pressure'
    ? pressureUnit !== null
    : quantity === 'temperature' && temperatureUnit !== null;
};

/** A reading as it stands on a sheet: as it was typed, or in the shop's unit; the mean where it was repeated. */
export const readingText = (reading: Reading, judged: Finding | undefined, { options }: Style): string => {
  switch (reading.kind) {
    case 'untaken':
      return '-';
    case 'span':
      return `${reading.low.text} to ${reading.high.text}`;
    case 'values':
      return judged?.measured && (reading.values.length > 1 || isConverted(judged, options))
        ? valueText(judged.measured, options)
        : reading.values.map(({ text }) => text).join(', ');
  }
};
