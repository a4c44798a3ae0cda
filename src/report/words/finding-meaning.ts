import type { Finding, PatternRemark } from '../../core/finding.ts';
import { parseKey } from '../../core/key.ts';
import type { ReportOptions } from '../style.ts';
import { briefText, remarkText } from './finding-words.ts';
import { firstClause } from './first-clause.ts';
import { patternWords } from './pattern-words.ts';

type Units = Pick<ReportOptions, 'pressureUnit' | 'temperatureUnit'>;

/** What must be heeded or decides, whatever else a finding has to say. */
const mustSay = (finding: Finding, units: Units): string[] => [
  ...(finding.intermittent ? ['came and went'] : []),
  ...(finding.waived ? [`accepted until ${finding.waived.until} by ${finding.waived.by}`] : []),
  ...finding.remarks.flatMap((remark) => {
    if (remark.kind === 'set-by-test') return ['a test set it: clear it'];
    if (remark.kind === 'answered-by-step') return [`to be expected until ${remark.step} is done`];
    if (remark.kind === 'stored-elsewhere') return ['of another module'];
    if (remark.kind === 'may-freeze') return [remarkText(remark, units)];
    if (remark.kind === 'service-data') return [`by the vehicle's own figures`];
    return [];
  }),
];

const ofCorners: ReadonlySet<string> = new Set(['position', 'shown-height', 'shown-travel', 'height']);
const plainKinds: ReadonlySet<string> = new Set(['range', 'left-right', 'front-rear']);

/** Whether the words beside the corners say the same. */
const isAtCorners = ({ kind, channels, verdict }: Finding): boolean =>
  verdict === 'out' && plainKinds.has(kind) && channels.every((key) => ofCorners.has(parseKey(key).base));

const ownMeaning = (finding: Finding, units: Units): string => {
  if (isAtCorners(finding)) return '';
  const pattern = finding.remarks.find((one): one is PatternRemark => one.kind === 'pattern');
  if (pattern) return patternWords(pattern);
  return firstClause(briefText(finding, units).replace(/^too close to call(?:: )?/u, ''));
};

/**
 * What a finding means in one clause, and what about it must not be missed; all of it is shown with `--all`. Nothing
 * where the words beside the corners say it.
 */
export const meaningText = (finding: Finding, units: Units): string =>
  [ownMeaning(finding, units), ...mustSay(finding, units)].filter((part) => part !== '').join('; ');
