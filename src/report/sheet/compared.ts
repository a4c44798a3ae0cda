import type { Compared, Worksheet } from '../../core/worksheet.ts';
import type { Style } from '../style.ts';
import { comparisonTable } from './comparison.ts';
import { footer } from './footer.ts';
import { wrap } from './grid.ts';
import { heading } from './heading.ts';

const otherStates = ({ options, text }: Style): string =>
  wrap(text('They were read in two states, so that what differs need not be the work.'), options.width).join(
    '\n',
  );

/** Two snapshots of a job side by side, and nothing else. */
export const renderCompared = (
  sheet: Worksheet,
  { before, after, comparison }: Compared,
  style: Style,
): string => {
  const title = `${before.id} (${before.state}) against ${after.id} (${after.state})`;
  const sections = [
    heading(sheet, style),
    comparisonTable(title, comparison, style, true),
    ...(before.state === after.state ? [] : [otherStates(style)]),
    footer(style),
  ];
  return `${sections.join('\n\n')}\n`;
};
