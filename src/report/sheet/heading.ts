import type { BriefWorksheet } from '../../core/worksheet.ts';
import { oneLine } from '../clean.ts';
import type { Style } from '../style.ts';
import { timeText } from '../times.ts';
import { noticeText } from '../words/reason-words.ts';
import { kept, released, wrap } from './grid.ts';

/** Which vehicle and job it is, and the time that it is judged at. */
export const heading = ({ job, asOf }: BriefWorksheet, { chalk, text, options }: Style): string => {
  const status = job.status === 'open' ? [] : [job.status];
  // A job without a complaint is titled by its vehicle.
  const title = job.title === job.vehicle.name ? [] : [job.title];
  const name = [job.vehicle.name, job.id, ...title, ...status, timeText(asOf, job.zone)];
  // The time is what a wrapped line begins with, not what it breaks.
  const parts = name.map((part) => text(oneLine(part)));
  const line = [...parts.slice(0, -1), kept(parts.at(-1) ?? '')].join(text(' · '));
  return wrap(line, options.width, 0, 2)
    .map((one) => chalk.bold(released(one)))
    .join('\n');
};

/** The packs that it was judged with, and in which zone its times are. */
export const judgedWith = ({ job, packs }: BriefWorksheet, { chalk, text, options }: Style): string => {
  const versions = packs.map(({ id, version }) => `${id} ${version}`).join(', ');
  const line = `times in ${job.zone}; judged with ${versions}`;
  return wrap(text(line), options.width)
    .map((one) => chalk.dim(one))
    .join('\n');
};

/** What of the job was left out, assumed, or understood in one of two ways. */
export const warningLines = ({ warnings, job }: BriefWorksheet, { options, text }: Style): string[] =>
  warnings.flatMap((warning) => wrap(text(oneLine(noticeText(warning, job.zone))), options.width, 0, 2));
