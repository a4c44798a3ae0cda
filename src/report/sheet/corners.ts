import { type Corner, corners } from '../../core/corner.ts';
import type { Finding } from '../../core/finding.ts';
import type { Snapshot } from '../../core/job.ts';
import { margin } from '../../core/readings/verdict.ts';
import type { BriefWorksheet } from '../../core/worksheet.ts';
import { oneLine } from '../clean.ts';
import { distanceText, placesOf, valueText } from '../numbers.ts';
import type { Style } from '../style.ts';
import { timeText } from '../times.ts';
import { grid, wrap } from './grid.ts';

const channel = 'position';

/** Of the checks that judged this corner's own signal in this snapshot, the one whose limit is nearest. */
const nearestLimit = (findings: readonly Finding[], corner: Corner, snapshot: string): Finding | null => {
  const room = ({ limits, measured }: Finding): number =>
    (limits && measured && margin(measured.value, limits)) ?? Number.POSITIVE_INFINITY;
  return (
    findings
      .filter((one) => one.kind === 'range' && one.subject === corner && one.snapshot === snapshot)
      .filter(({ channels, measured }) => channels[0] === `${channel}.${corner}` && measured !== null)
      .sort((a, b) => room(a) - room(b))[0] ?? null
  );
};

const typed = (snapshot: Snapshot, corner: Corner): string => {
  const reading = snapshot.readings.get(`${channel}.${corner}`);
  if (!reading) return 'not read';
  if (reading.kind === 'untaken') return `not taken: ${reading.why}`;
  return reading.kind === 'span'
    ? `${reading.low.text} to ${reading.high.text}`
    : reading.values.map(({ text }) => text).join(', ');
};

const cell = (
  snapshot: Snapshot,
  corner: Corner,
  sheet: BriefWorksheet,
  allStale: boolean,
  style: Style,
): string => {
  const finding = nearestLimit(sheet.findings, corner, snapshot.id);
  if (!finding?.measured || !finding.limits) return `${corner}  ${oneLine(typed(snapshot, corner))}`;
  const room = margin(finding.measured.value, finding.limits) ?? 0;
  const distance = distanceText(room, finding.measured.unit, placesOf(finding), style.options);
  const side = room < 0 ? 'outside' : 'inside';
  const jumps = snapshot.readings.get(`${channel}.${corner}`)?.kind === 'span';
  const value = jumps ? typed(snapshot, corner) : valueText(finding.measured, style.options);
  const text = `${corner}  ${value}  ${distance} ${side}${finding.stale && !allStale ? ', before the work' : ''}`;
  return room < 0 ? style.chalk.bold(text) : text;
};

/** The newest position signals as a plain two-by-two table, each with its distance to the nearest limit. */
export const cornersTable = (sheet: BriefWorksheet, style: Style): string | null => {
  const { job } = sheet;
  const snapshot = job.snapshots.findLast(({ readings }) =>
    corners.some((corner) => readings.has(`${channel}.${corner}`)),
  );
  if (!snapshot) return null;
  const judged = job.vehicle.fitted
    .map((corner) => nearestLimit(sheet.findings, corner, snapshot.id))
    .filter((finding) => finding !== null);
  const allStale = judged.length > 0 && judged.every(({ stale }) => stale);
  const at = (corner: Corner): string => {
    const fitted = job.vehicle.fitted.includes(corner);
    return style.text(fitted ? cell(snapshot, corner, sheet, allStale, style) : `${corner}  not fitted`);
  };
  const head = `Corners, ${oneLine(snapshot.id)} (${snapshot.state}, ${timeText(snapshot.stamp.at, job.zone)}${allStale ? ', before the work' : ''}), distance to the nearest limit`;
  const side = Math.min(34, Math.floor((style.options.width - 12) / 2));
  const table = grid(
    [
      ['  front', at('LF'), at('RF')],
      ['  rear', at('LR'), at('RR')],
    ],
    [8, side, side],
  );
  const heading = wrap(style.text(head), style.options.width).map((line) => style.chalk.bold(line));
  return [...heading, table].join('\n');
};
