import type { Finding, Missing } from '../../core/finding.ts';
import { oneLine } from '../clean.ts';
import type { Style } from '../style.ts';
import { missingText } from '../words/finding-words.ts';
import { wrap } from './grid.ts';

const ofVehicle: ReadonlySet<Missing['why']> = new Set([
  'vehicle-differs',
  'vehicle-not-stated',
  'no-table',
  'no-limits',
]);

/** Whether a check has no limits for such a vehicle, so that no reading would change what it says. */
export const isOfVehicle = ({ missing }: Finding): boolean => missing !== null && ofVehicle.has(missing.why);

/** What was not taken, gathered by reason into one short list; readings that only a test asks for with `--all`. */
export const notTakenList = (
  findings: readonly Finding[],
  style: Style,
  title = 'Not taken',
): string | null => {
  const { options, chalk, text } = style;
  const byReason = new Map<string, Map<string, string[]>>();
  for (const { verdict, missing, wanted, checkTitle, subject, channels } of findings) {
    if (verdict !== 'not-taken' || missing === null || !(wanted || options.all)) continue;
    const reason = missingText(
      missing.why === 'no-reading' || missing.why === 'no-snapshot'
        ? { why: 'no-snapshot', states: missing.states, channels: [] }
        : missing,
      options,
    ).replace(/^no (.*) snapshot$/u, 'no $1 reading');
    const titles = byReason.get(reason) ?? new Map<string, string[]>();
    const subjects = titles.get(checkTitle) ?? [];
    if (channels.length !== 1 || channels[0] !== subject) subjects.push(subject);
    titles.set(checkTitle, subjects);
    byReason.set(reason, titles);
  }
  if (byReason.size === 0) return null;
  const lines = [...byReason].flatMap(([reason, titles]) => {
    const what = [...titles].map(([title, subjects]) =>
      subjects.length > 0 ? `${title} (${subjects.join(' ')})` : title,
    );
    return wrap(`${oneLine(reason)}: ${oneLine(what.join(', '))}`, options.width, 2, 4);
  });
  return `${chalk.bold(title)}\n${text(lines.join('\n'))}`;
};
