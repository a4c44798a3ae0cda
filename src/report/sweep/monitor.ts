import type { Totals } from '../../core/sweep/totals.ts';
import { many } from '../words/sweep-words.ts';
import type { SweepRenderer, SweepRendering } from './rendering.ts';

/** Unknown where the program failed, critical where nothing is known of some job, warning where a job fails. */
const stateOf = ({ totals, stopped }: SweepRendering): 'OK' | 'WARNING' | 'CRITICAL' | 'UNKNOWN' => {
  if (totals.faults > 0) return 'UNKNOWN';
  if (stopped !== null || totals.by['cannot-be-judged'] > 0) return 'CRITICAL';
  return totals.failing > 0 ? 'WARNING' : 'OK';
};

const text = ({ totals, stopped, withinDays, compared }: SweepRendering): string => {
  const { by, files, failing, ended, endingSoon, changes } = totals;
  const parts: (readonly [number, string])[] = [
    [by['cannot-be-judged'], `${many(by['cannot-be-judged'], 'file')} cannot be judged`],
    [stopped ? 1 : 0, `stopped early, ${stopped?.done} of ${many(stopped?.of ?? 0, 'file')} looked at`],
    [1, `${by.hold} of ${many(files, 'job')} at hold`],
    [by.look, `${by.look} at look`],
    [failing - by.hold, `${failing} failing`],
    [ended, `${ended} with a waiver or access that ended`],
    [endingSoon, `${endingSoon} where one ends within ${many(withinDays, 'day')}`],
    [compared ? changes.changed + changes.new : 0, `${changes.changed} changed, ${changes.new} new`],
  ];
  return parts
    .filter(([count]) => count > 0)
    .map(([, said]) => said)
    .join(', ');
};

/** One measurement: `label=value;warn;crit;min;max`; a range of 0 warns of anything above it. */
const measured = (label: string, value: number, { files }: Totals, warn = '', crit = ''): string =>
  `${label}=${value};${warn};${crit};0;${files}`;

/**
 * One line in the convention of monitoring plugins (Monitoring Plugins Development Guidelines, "Plugin Output" and
 * "Performance data"): the state, a text without a pipe, and numbers to draw.
 */
export function* renderSweepMonitor(rendering: Parameters<SweepRenderer>[0]): Generator<string> {
  const { totals } = rendering;
  const { by, failing, ended, endingSoon, status } = totals;
  const numbers = [
    measured('failing', failing, totals, '0'),
    measured('cannot-be-judged', by['cannot-be-judged'], totals, '', '0'),
    ...(['hold', 'look', 'note', 'not-clear', 'outstanding', 'clear'] as const).map((one) =>
      measured(one, by[one], totals),
    ),
    measured('waiting', status.waiting, totals),
    measured('ended', ended, totals),
    measured('ending-soon', endingSoon, totals),
  ];
  yield `CORNERWISE ${stateOf(rendering)} - ${text(rendering)} | ${numbers.join(' ')}\n`;
}
