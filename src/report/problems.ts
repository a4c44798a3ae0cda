import type { Problem } from '../input/problem.ts';
import { clean } from './clean.ts';
import type { Style } from './style.ts';

/** At most this much of an offending line is shown, about the place that matters. */
const shownWidth = 76;

const excerpt = (lineText: string, column: number): { text: string; caret: number } => {
  const tabless = lineText.replaceAll('\t', ' ');
  const start = column > shownWidth - 8 ? column - 40 : 0;
  const cut = tabless.slice(start, start + shownWidth);
  const before = clean(cut.slice(0, column - 1 - start));
  return { text: `${start > 0 ? '…' : ''}${clean(cut)}`, caret: before.length + (start > 0 ? 1 : 0) };
};

/** One problem as people read it: where, what, the line itself, and what to do. */
export const problemText = (problem: Problem, file: string, style: Style): string => {
  const { chalk, text } = style;
  const place = [clean(problem.file ?? file), problem.line, problem.column]
    .filter((part) => part !== null)
    .join(':');
  const lines = [`${chalk.bold(place)}: ${clean(problem.message)} ${chalk.dim(`[${problem.code}]`)}`];
  if (problem.lineText !== null && problem.line !== null && problem.lineText.trim() !== '') {
    const { text: line, caret } = excerpt(problem.lineText, problem.column ?? 1);
    const gutter = `  ${problem.line} | `;
    lines.push(`${chalk.dim(gutter)}${line}`, `${' '.repeat(gutter.length + caret)}^`);
  }
  if (problem.hint !== null) lines.push(`  ${clean(problem.hint)}`);
  return `${text(lines.join('\n'))}\n`;
};

/** All problems of a file. */
export const renderProblems = (file: string, problems: readonly Problem[], style: Style): string =>
  problems.map((problem) => problemText(problem, file, style)).join('\n');
