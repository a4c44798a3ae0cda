import type { GoneRow } from '../../core/sweep/row.ts';
import { general } from '../sheet/footer.ts';
import {
  bySeverity,
  headingText,
  nothingText,
  noticeText,
  otherTotals,
  severityWords,
  stoppedText,
} from '../words/sweep-words.ts';
import { columnHeads, htmlRow } from './html-row.ts';
import { boardStyle } from './html-style.ts';
import { escaped } from './html-text.ts';
import type { SweepRenderer, SweepRendering } from './rendering.ts';

const head = (title: string): string => `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${title}</title>
<style>${boardStyle}</style>
</head>
<body>
<main>
<h1>${title}</h1>
`;

const pair = (name: string, says: string): string => `<div><dt>${name}</dt><dd>${says}</dd></div>`;

const totals = (rendering: SweepRendering): string => {
  const stopped = stoppedText(rendering);
  const by = bySeverity(rendering).map(([severity, count]) =>
    pair(`<span class="mark ${severity}">${severityWords[severity]}</span>`, String(count)),
  );
  const others = otherTotals(rendering).map(([name, says]) => pair(escaped(name), escaped(says)));
  return [
    ...rendering.notices.map((notice) => `<p class="loud" role="alert">${escaped(noticeText(notice))}</p>\n`),
    ...(stopped === null ? [] : [`<p class="loud stopped" role="alert">${escaped(stopped)}</p>\n`]),
    '<section aria-labelledby="totals">\n<h2 id="totals">Totals</h2>\n',
    ...[[pair('Jobs', String(rendering.totals.files)), ...by], others]
      .filter((pairs) => pairs.length > 0)
      .map((pairs) => `<dl>${pairs.join('')}</dl>\n`),
    '</section>\n',
  ].join('');
};

const tableHead = (): string =>
  `<table role="table" aria-labelledby="jobs">
<caption>Jobs, worst first</caption>
<thead role="rowgroup"><tr role="row">${columnHeads
    .map((name) => `<th scope="col" role="columnheader">${name}</th>`)
    .join('')}</tr></thead>
<tbody role="rowgroup">
`;

const goneSection = (gone: readonly GoneRow[]): string =>
  gone.length === 0
    ? ''
    : `<section aria-labelledby="gone">
<h2 id="gone">Gone since the earlier sweep</h2>
<ul>
${gone
  .map(({ file, vehicle, title, change }) => {
    const name = [vehicle, title].filter((part) => part !== null).join(', ');
    const why = change.says.length > 0 ? `: ${change.says.join('; ')}` : '';
    return `<li><code>${escaped(file)}</code> ${escaped(name + why)}</li>\n`;
  })
  .join('')}</ul>
</section>
`;

/** A page of its own for a screen or a printer in the workshop: the totals, then a row a job, the worst first. */
export function* renderSweepHtml(rendering: Parameters<SweepRenderer>[0]): Generator<string> {
  const { rows, gone, options } = rendering;
  yield head(escaped(headingText(rendering)));
  yield totals(rendering);
  yield '<section aria-labelledby="jobs">\n<h2 id="jobs">Jobs, worst first</h2>\n';
  let empty = true;
  for (const row of rows) {
    if (empty) yield tableHead();
    empty = false;
    yield htmlRow(row, options.all);
  }
  yield empty ? `<p>${escaped(nothingText(rendering))}</p>\n` : '</tbody>\n</table>\n';
  yield '</section>\n';
  yield goneSection(gone);
  yield `</main>\n<footer><p>${escaped(general)}</p></footer>\n</body>\n</html>\n`;
}
