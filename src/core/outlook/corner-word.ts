import { axleOf, axles, type Corner, isAxle, sides } from '../corner.ts';
import type { Finding, PatternRemark } from '../finding.ts';
import type { Reading } from '../job.ts';
import type { Place } from '../readings/corner-patterns.ts';

/**
 * What is said of one corner beside its reading. `low` and `high` are beyond the corner's own limits, or what the pattern
 * of all four says of it; `lower` only sets it apart from the corner across.
 */
export type CornerWord =
  | 'ok'
  | 'low'
  | 'high'
  | 'lower'
  | 'close'
  | 'jumps'
  | 'not-read'
  | 'old'
  | 'not-judged';

/** The corners at a place of the vehicle. */
export const cornersAt = (place: Place): readonly Corner[] => {
  if (place === null) return [];
  if (isAxle(place)) return axles[place];
  return place === 'left' || place === 'right' ? sides[place] : [place];
};

const isOut = ({ verdict }: Finding): boolean => verdict === 'out';

/** Findings of one snapshot that hold this channel of a corner, and no other, against limits. */
const ofCorner = (findings: readonly Finding[], key: string, corner: Corner): readonly Finding[] =>
  findings.filter(
    ({ subject, channels, kind }) =>
      subject === corner &&
      (kind === 'tape-target' ? channels.includes(key) : channels.every((channel) => channel === key)),
  );

const patternAt = (findings: readonly Finding[], corner: Corner, key: string): CornerWord | null => {
  const finding = findings.find((one) => one.kind === 'pattern' && isOut(one) && one.channels.includes(key));
  const remark = finding?.remarks.find((one): one is PatternRemark => one.kind === 'pattern');
  if (!remark || remark.sure === 'cannot-tell' || !cornersAt(remark.where).includes(corner)) return null;
  return remark.amount < 0 ? 'low' : 'high';
};

/** What left against right says of a corner: only the lower one is named, since either may be the wrong one. */
const acrossAt = (findings: readonly Finding[], corner: Corner, key: string): CornerWord | null => {
  const axle = axleOf(corner);
  const finding = findings.find(
    (one) => one.kind === 'left-right' && isOut(one) && one.subject === axle && one.channels.includes(key),
  );
  if (!finding || finding.side === null) return null;
  const [left] = axles[axle];
  return (finding.side === 'low') === (corner === left) ? 'lower' : null;
};

/**
 * The word beside a reading of a corner.
 *
 * @param findings those of the snapshot that holds the reading
 * @param key the channel with its corner: `position.LF`
 */
export const cornerWord = (
  findings: readonly Finding[],
  key: string,
  corner: Corner,
  reading: Reading,
): CornerWord => {
  if (reading.kind === 'untaken') return 'not-read';
  const own = ofCorner(findings, key, corner);
  const about = findings.filter(({ channels }) => channels.includes(key));
  if (about.length > 0 && about.every(({ stale }) => stale)) return 'old';
  if (reading.kind === 'span' || own.some((one) => one.kind === 'steadiness' && isOut(one))) return 'jumps';
  const beyond = own.find((one) => isOut(one) && one.side !== null && one.kind !== 'height-loss');
  const found = beyond?.side ?? patternAt(findings, corner, key) ?? acrossAt(findings, corner, key);
  if (found) return found;
  if (own.some(({ verdict }) => verdict === 'too-close')) return 'close';
  const judges = [...own, ...about.filter(({ kind }) => kind === 'left-right')];
  return judges.some(({ verdict }) => verdict === 'within' || verdict === 'out') ? 'ok' : 'not-judged';
};
