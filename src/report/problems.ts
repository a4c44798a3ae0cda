import type { Problem } from '../input/problem.ts';
import { clean } from './clean.ts';
import { wrap } from './sheet/grid.ts';
import type { Style } from './style.ts';

/** At most this much of an offending line is shown, about the place that matters. */
const shownWidth = 76;
/** How much of a cut line stands before the place that matters. */
const lead = 40;
/** More problems than anybody corrects in one go; machine output has all of them. */
const mostShown = 100;
/** A message is one sentence; what is longer repeats something that was typed. */
const longestMessage = 400;

/** The part of a line about a column, safe to print, and how many characters stand before the caret. */
const excerpt = (lineText: string, column: number): { readonly text: string; readonly caret: number } => {
  // One column each, so that the caret stands where the text does.
  const line = lineText.replaceAll('\t', ' ');
  const start = column > shownWidth - 8 ? column - lead : 0;
  const cut = line.slice(start, start + shownWidth);
  const before = start > 0 ? '…' : '';
  const after = line.length > start + shownWidth ? '…' : '';
  const caret = before + clean(cut.slice(0, Math.max(0, column - 1 - start)));
  return { text: before + clean(cut) + after, caret: caret.length };
};

/** A path as it is, but for what a terminal would obey. */
const pathText = (path: string): string => clean(path).replaceAll('\n', '<0A>').replaceAll('\t', '<09>');

const sentence = (text: string): string =>
  clean(text.length > longestMessage ? `${text.slice(0, longestMessage)}…` : text).replace(/\s+/gu, ' ');

/** One problem as people read it: where, what, the line itself, and what to do. */
export const problemText = (problem: Problem, file: string, style: Style): string => {
  const { chalk, text } = style;
  const place = [pathText(problem.file ?? file), problem.line, problem.column]
    .filter((part) => part !== null)
    .join(':');
  const lines = [`${chalk.bold(place)}: ${sentence(problem.message)} ${chalk.dim(`[${problem.code}]`)}`];
  if (problem.lineText !== null && problem.line !== null && problem.lineText.trim() !== '') {
    const { text: line, caret } = excerpt(problem.lineText, problem.column ?? 1);
    const gutter = `  ${problem.line} | `;
    lines.push(`${chalk.dim(gutter)}${line}`, `${' '.repeat(gutter.length + caret)}^`);
  }
  if (problem.hint !== null) lines.push(...wrap(sentence(problem.hint), style.options.width, 2, 4));
  return `${text(lines.join('\n'))}\n`;
};

/** All problems of a file, or as many as make sense to read. */
export const renderProblems = (file: string, problems: readonly Problem[], style: Style): string => {
  const shown = problems.slice(0, mostShown).map((problem) => problemText(problem, file, style));
  const uncounted = problems.at(-1)?.more;
  const more = problems.length - shown.length + (uncounted === undefined ? 0 : uncounted - 1);
  const where = uncounted === undefined ? '; --format json has them all' : '';
  const rest = problems.length > shown.length ? [`${pathText(file)}: ${more} more like these${where}\n`] : [];
  return [...shown, ...rest].join('\n');
};
