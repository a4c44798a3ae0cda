/**
 * How the board looks: ink on paper with one violet for emphasis. How bad a row is stands there as a word; its frame
 * only repeats that, by weight and not by hue, so that it is there in black and white, too.
 */
export const boardStyle = `
:root { color-scheme: light dark; --paper: #f8f7f3; --ink: #1e232b; --soft: #585d66; --rule: #cbc8bf;
  --accent: #43307a; --on-accent: #ffffff; --band: #eeecf3; }
@media (prefers-color-scheme: dark) { :root { --paper: #17191e; --ink: #e8e6e1; --soft: #a9adb5; --rule: #41454e;
  --accent: #cdbdf7; --on-accent: #1b1430; --band: #25222f; } }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 110rem; padding: 1.25rem 1.5rem 2rem; background: var(--paper); color: var(--ink);
  font: 0.95rem/1.4 system-ui, sans-serif; overflow-wrap: anywhere; }
h1 { font-size: 1.35rem; margin: 0 0 0.75rem; }
h2 { font-size: 1.05rem; margin: 1.5rem 0 0.5rem; }
dl { display: flex; flex-wrap: wrap; gap: 0.5rem 1.75rem; margin: 0 0 0.5rem; }
dl div { display: flex; gap: 0.5rem; align-items: baseline; }
dt { color: var(--soft); } dd { margin: 0; font-weight: 600; }
.loud { font-weight: 700; color: var(--accent); }
.stopped { border: 3px double var(--accent); padding: 0.5rem 0.75rem; }
table { width: 100%; border-collapse: collapse; table-layout: fixed; }
thead th:nth-child(1) { width: 10%; } thead th:nth-child(2) { width: 18%; } thead th:nth-child(3) { width: 6%; overflow-wrap: normal; }
thead th:nth-child(4) { width: 23%; } thead th:nth-child(5) { width: 13%; } thead th:nth-child(6) { width: 13%; }
caption { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
th, td { text-align: left; vertical-align: top; padding: 0.45rem 0.6rem; border-bottom: 1px solid var(--rule); }
thead th { color: var(--soft); font-weight: 600; border-bottom: 2px solid var(--ink); }
tbody th { font-weight: 600; }
tbody th small, tbody th code { font-weight: 400; }
tr.changed, tr.new { background: var(--band); }
code { font: 0.85em/1.4 ui-monospace, monospace; color: var(--soft); }
small { color: var(--soft); font-size: 0.88em; }
.number { text-align: right; font-variant-numeric: tabular-nums; }
ul { list-style: none; margin: 0; padding: 0; }
li + li { margin-top: 0.25rem; }
.mark { display: inline-block; padding: 0.05rem 0.4rem; overflow-wrap: normal; border: 1px solid transparent; border-radius: 2px; }
.mark.hold, .mark.cannot-be-judged { background: var(--accent); color: var(--on-accent); font-weight: 700; }
.mark.cannot-be-judged { outline: 1px solid var(--accent); outline-offset: 2px; }
.mark.look { border: 2px solid var(--accent); font-weight: 600; }
.mark.note, .mark.not-clear { border-color: var(--soft); }
.mark.outstanding { border: 1px dashed var(--soft); }
footer { margin-top: 1.5rem; color: var(--soft); }
@media screen and (max-width: 46rem) {
  body { padding: 0.75rem; }
  table, tbody, tr, tbody th, tbody td { display: block; width: 100%; }
  thead { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
  tbody tr { padding: 0.6rem 0.5rem; border-bottom: 2px solid var(--rule); }
  tbody th, tbody td { border: 0; padding: 0.15rem 0; text-align: left; }
  tbody td.number { text-align: left; }
  tbody td:empty { display: none; }
  tbody td[data-head]::before { content: attr(data-head) ": "; color: var(--soft); }
}
@page { size: landscape; margin: 12mm; }
@media print {
  :root { --paper: #ffffff; --ink: #000000; --soft: #333333; --rule: #999999; --accent: #000000;
    --on-accent: #ffffff; --band: #eeeeee; }
  body { padding: 0; max-width: none; font-size: 9pt; }
  tr, .mark { break-inside: avoid; print-color-adjust: exact; }
}
`;
