import type { Now } from '../../core/now/now.ts';
import type { BriefWorksheet } from '../../core/worksheet.ts';
import type { Reason } from '../../core/worksheet-parts.ts';
import { oneLine } from '../clean.ts';
import { displayWidth } from '../columns.ts';
import { wrap } from '../sheet/grid.ts';
import type { Style } from '../style.ts';
import { reasonText } from '../words/reason-words.ts';
import { cautionAndCommand, headOfNow } from './now-lines.ts';

const indent = 5;

/** What the title says already, or another reason says better. */
const isNews = (reason: Reason, { title, because }: Now): boolean => {
  if (reason.kind === 'readings-missing' || reason.kind === 'reading-open') return title.kind !== 'read';
  if (reason.kind !== 'logged') return true;
  return !because.some((one) => one.kind === 'undone' && one.what === reason.what && one.at === reason.at);
};

const briefReason = (reason: Reason, zone: string, { title }: Now): string => {
  if (reason.kind === 'readings-stale' && title.kind === 'read')
    return reason.after.length > 0 ? `older than ${reason.after.join(', ')}` : 'older than the work';
  return reasonText(reason, zone);
};

/** The reasons that fit on a line, the most telling first; the first in any case. */
const becauseLines = (now: Now, zone: string, { text, options }: Style): string[] => {
  const told = now.because
    .filter((reason) => isNews(reason, now))
    .map((reason) => text(oneLine(briefReason(reason, zone, now))));
  const reasons = [...new Set(told)];
  let line = reasons[0] ?? '';
  for (const reason of reasons.slice(1)) {
    if (indent + displayWidth(`${line}; ${reason}`) > options.width) break;
    line += `; ${reason}`;
  }
  return line === '' ? [] : wrap(line, options.width, indent);
};

/** What to do now, as the top of a sheet has it: its reason in one line, what to heed before it, and the line to type. */
export const briefNowLines = ({ now, job }: BriefWorksheet, file: string, style: Style): string[] => [
  ...headOfNow(now, style),
  ...becauseLines(now, job.zone, style),
  ...cautionAndCommand(now, file, style),
];
