import type { Finding } from '../../core/finding.ts';
import type { Snapshot } from '../../core/job.ts';
import type { BriefWorksheet } from '../../core/worksheet.ts';
import type { Style } from '../style.ts';
import { readingText } from './reading-text.ts';

/** What is read once for the vehicle and stands beside the corners. */
const channels = ['supply', 'battery', 'tank'];

/** More codes than these are counted. */
const mostCodes = 4;

/** Whether a reading alone is beyond its limits, and which way; older than work. */
const wordOf = (own: readonly Finding[]): string => {
  if (own.length > 0 && own.every(({ stale }) => stale)) return ' (old)';
  const out = own.find(({ verdict, side }) => verdict === 'out' && side !== null);
  return out ? ` ${out.side === 'low' ? 'LOW' : 'high'}` : '';
};

const channelText = (channel: string, sheet: BriefWorksheet, style: Style): string[] => {
  const snapshot = sheet.job.snapshots.findLast(({ readings, state }) => {
    const reading = readings.get(channel);
    // What the starter pulls it down to says little beside the corners.
    return state !== 'cranking' && reading !== undefined && reading.kind !== 'untaken';
  });
  const reading = snapshot?.readings.get(channel);
  if (!snapshot || !reading) return [];
  const own = sheet.findings.filter(
    (one) => one.snapshot === snapshot.id && one.channels.length === 1 && one.channels[0] === channel,
  );
  const inUnit = own.find(
    ({ measured, kind }) => measured !== null && (kind === 'range' || kind === 'tank-pressure'),
  );
  return [`${channel} ${readingText(reading, inUnit, style)}${wordOf(own)}`];
};

const newest = ({ job }: BriefWorksheet, has: (snapshot: Snapshot) => boolean): Snapshot | undefined =>
  job.snapshots.findLast(has);

const lampText = (sheet: BriefWorksheet): string => {
  const lamp = newest(sheet, (one) => one.lamp !== null)?.lamp ?? null;
  return lamp === null ? 'lamp not noted' : `lamp ${lamp.replaceAll('-', ' ')}`;
};

const codesText = (sheet: BriefWorksheet): string => {
  const codes = newest(sheet, (one) => one.codes !== null)?.codes ?? null;
  if (codes === null) return 'codes not read';
  if (codes.length === 0) return 'no codes';
  const names = [...new Set(codes.map(({ code }) => code))];
  const rest = names.length - mostCodes;
  return `${names.length === 1 ? 'code' : 'codes'} ${names.slice(0, mostCodes).join(' ')}${rest > 0 ? ` and ${rest} more` : ''}`;
};

/** Supply, tank, lamp and codes as they were read last, each in a few words. */
export const besideCorners = (sheet: BriefWorksheet, style: Style): string[] => [
  ...channels.flatMap((channel) => channelText(channel, sheet, style)),
  lampText(sheet),
  codesText(sheet),
];
