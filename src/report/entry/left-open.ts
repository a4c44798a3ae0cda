import type { StillToTake } from '../../core/wanted/still-to-take.ts';
import type { BriefWorksheet } from '../../core/worksheet.ts';
import { oneLine } from '../clean.ts';
import { wrap } from '../sheet/grid.ts';
import { namedStep, tellingLines } from '../sheet/steps.ts';
import type { Style } from '../style.ts';

const things = ({ lamp, readings, codes }: StillToTake): string =>
  [...(lamp ? ['lamp'] : []), ...readings, ...(codes ? ['codes'] : [])].join(', ');

const titles = (ids: readonly string[], { steps }: BriefWorksheet): string =>
  ids
    .map((id) => {
      const step = steps.find((one) => one.id === id);
      return step ? namedStep(step) : id;
    })
    .join(', ');

/** Nothing more is to be asked for; what readings leave open all the same is told with its reasons. */
const nothingToAsk = (sheet: BriefWorksheet, style: Style): string => {
  const { text, options } = style;
  const open = sheet.steps.filter(({ id, state }) => id.startsWith('readings/') && state !== 'done');
  if (open.length === 0) return text('The packs want no more readings.');
  const lines = open.flatMap((step) =>
    [namedStep(step), ...tellingLines(step, sheet.job.zone, options.all).map((line) => `  ${line}`)].flatMap(
      (line) => {
        const indent = line.startsWith('  ') ? 4 : 2;
        return wrap(text(oneLine(line)), options.width, indent, indent + 2);
      },
    ),
  );
  return ['Nothing more to ask for. Still open', ...lines].join('\n');
};

/** What a session left open, and what waits for work that would only make it stale again. */
export const leftOpen = (left: readonly StillToTake[], sheet: BriefWorksheet, style: Style): string => {
  const { text, options } = style;
  if (left.length === 0) return nothingToAsk(sheet, style);
  const lines = left.flatMap((one) => {
    const waits = one.waitsFor.length > 0 ? ` (waits for ${titles(one.waitsFor, sheet)})` : '';
    return wrap(text(`${one.state}: ${things(one)}${waits}`), options.width, 2, 4);
  });
  return ['Still to take', ...lines].join('\n');
};
