import type { Finding } from '../../core/finding.ts';
import { oneLine } from '../clean.ts';
import { limitsText, valueText } from '../numbers.ts';
import { worstFirst } from '../sheet/findings.ts';
import { wrap } from '../sheet/grid.ts';
import type { Style } from '../style.ts';
import { briefText } from '../words/finding-words.ts';

const line = (finding: Finding, style: Style): string => {
  const { options } = style;
  const { verdict, weight, kind, checkTitle, subject, channels, measured, limits } = finding;
  const word = verdict === 'out' ? `OUT ${weight}` : 'close';
  const whole =
    channels.length === 0 ? kind !== 'stored-codes' : channels.length === 1 && channels[0] === subject;
  const of = whole ? '' : ` ${subject}`;
  const value =
    measured && limits
      ? `: ${valueText(measured, options)}, should be ${limitsText(limits, measured.unit, options)}`
      : '';
  const brief = briefText(finding, options);
  return oneLine(`${word}  ${checkTitle}${of}${value}${brief === '' ? '' : `; ${brief}`}`);
};

/**
 * What is said of a reading the moment it is typed: how it was understood, and every check that it takes part in,
 * worst first.
 *
 * @param echo what was understood; null where that needs no saying
 */
export const verdictLines = (echo: string | null, findings: readonly Finding[], style: Style): string => {
  const { text, options, chalk } = style;
  const told = findings
    .filter(({ verdict }) => verdict === 'out' || verdict === 'too-close')
    .sort(worstFirst);
  const within = findings.filter(({ verdict }) => verdict === 'within').length;
  const good = told.length > 0 || within === 0 ? null : `within${within > 1 ? `, by ${within} checks` : ''}`;
  const first = [echo, good].filter((part) => part !== null).join('; ');
  const lines = told.flatMap((finding) =>
    wrap(text(line(finding, style)), options.width, 4, 6).map((one) =>
      finding.verdict === 'out' && finding.weight === 'hold' ? chalk.bold(one) : one,
    ),
  );
  const all = [...(first === '' ? [] : wrap(text(oneLine(first)), options.width, 4, 6)), ...lines];
  return all.map((one) => `${one}\n`).join('');
};
