import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Row } from '../../../src/core/sweep/row.ts';
import { renderSweepHtml } from '../../../src/report/sweep/html.ts';
import { boardStyle } from '../../../src/report/sweep/html-style.ts';
import { anyGone, anyRows, gone, night, renderingOf, row, shown } from './rows.ts';

const html = (rendering: ReturnType<typeof renderingOf>): string => shown(renderSweepHtml, rendering);
const page = html(renderingOf(night(), { gone: [gone], compared: true }));

/** The text of a page, what is between its tags, with nothing named by `&`. */
const textOf = (text: string): string =>
  text
    .replace(/<style>[\s\S]*?<\/style>/u, '')
    .replace(/<[^>]*>/gu, '\n')
    .replace(/&lt;|&gt;|&quot;|&#39;|&amp;/gu, '');

/** Every tag that opens is closed again, in order. */
const isBalanced = (text: string): boolean => {
  const open: string[] = [];
  for (const [, slash, name = ''] of text
    .replace(/<style>[\s\S]*?<\/style>/u, '')
    .matchAll(/<(\/?)([a-z]\w*)[^>]*>/gu)) {
    if (['meta', 'br'].includes(name)) continue;
    if (slash === '') open.push(name);
    else if (open.pop() !== name) return false;
  }
  return open.length === 0;
};

describe('the board', () => {
  it('is one page that needs nothing from outside and runs nothing', () => {
    expect(page).toMatch(/^<!doctype html>\n<html lang="en">/u);
    expect(page).not.toMatch(/<script|<link|<img|<iframe|@import|url\(|https?:|\son[a-z]+=/u);
    expect(page).toContain(`content="default-src 'none'; style-src 'unsafe-inline'"`);
    expect(isBalanced(page)).toBe(true);
  });

  it('has a title, headings in order, and a table whose heads say what they head', () => {
    const title = 'Sweep as of 2026-03-02 18:00 Europe/Dublin, against the earlier one';
    expect(page).toContain(`<title>${title}</title>`);
    expect([...page.matchAll(/<h(\d)[^>]*>([^<]*)/gu)].map(([, level, text]) => `${level} ${text}`)).toEqual([
      `1 ${title}`,
      '2 Totals',
      '2 Jobs, worst first',
      '2 Gone since the earlier sweep',
    ]);
    expect(page.match(/<th scope="col" role="columnheader">/gu)).toHaveLength(7);
    expect(page.match(/<th scope="row" role="rowheader">/gu)).toHaveLength(night().length);
    for (const [, id] of page.matchAll(/aria-labelledby="([^"]*)"/gu)) expect(page).toContain(` id="${id}"`);
    expect(new Set([...page.matchAll(/ id="([^"]*)"/gu)].map(([, id]) => id)).size).toBe(3);
  });

  it('says in words how bad a row is, what is next and what waits', () => {
    expect(page).toContain('<span class="mark hold">hold</span>');
    expect(page).toContain('<span class="mark cannot-be-judged">cannot be judged</span>');
    expect(page).toContain(
      '<td role="cell" data-head="Next">Load test of the battery<small>, 6 min</small></td>',
    );
    expect(page).toContain('waits for access for height-learn');
    expect(page).toContain('<strong class="loud">WAIVER ENDED 2026-02-27: ');
    expect(page).toContain('vehicle maker’s service information');
  });

  it('has as many cells in each row as heads', () => {
    const rows = page.match(/<tr role="row".*<\/tr>/gu) ?? [];
    expect(rows.map((one) => one.match(/<t[hd] /gu)?.length)).toEqual(rows.map(() => 7));
  });

  it('is of one shape, whatever a file says: no text of others marks anything up', () => {
    fc.assert(
      fc.property(anyRows, anyGone, (rows, left) => {
        const text = html(renderingOf(rows, { gone: left, compared: true }));
        expect(isBalanced(text)).toBe(true);
        expect(textOf(text)).not.toMatch(/[<>"']|&(?!$)/u);
        const names = new Set([...text.matchAll(/<\/?([a-z!][\w]*)/gu)].map(([, name]) => name));
        for (const name of ['script', 'b', 'img']) expect(names).not.toContain(name);
        expect(text).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202e]/u);
      }),
    );
  });

  it('says so where there is nothing, and where it was stopped', () => {
    const empty = html(renderingOf([]));
    expect(empty).toContain('<p>No job to show: none was found.</p>');
    expect(empty).not.toContain('<table');
    const rows: Row[] = [row('s.yaml')];
    expect(html(renderingOf(rows, { stopped: { done: 1, of: 412 } }))).toContain(
      'role="alert">STOPPED EARLY: ',
    );
  });
});

/** The relative luminance of a colour, and the contrast of two: WCAG 2.2, "relative luminance", "contrast ratio". */
const luminance = (colour: string): number => {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((at) => {
    const part = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
    return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
};

const contrast = (one: string, other: string): number => {
  const [dark = 0, light = 0] = [luminance(one), luminance(other)].sort((a, b) => a - b);
  return (light + 0.05) / (dark + 0.05);
};

describe('its colours, on a screen by day and by night, and on paper', () => {
  const schemes = [...boardStyle.matchAll(/:root \{([^}]*)\}/gu)].map(([, body = '']) =>
    Object.fromEntries(
      [...body.matchAll(/--([\w-]+): (#[0-9a-f]{6})/gu)].map(([, name, value]) => [name, value]),
    ),
  );

  it('can be read: 4.5 to 1 at least (WCAG 2.2, 1.4.3)', () => {
    expect(schemes).toHaveLength(3);
    for (const of of schemes) {
      const pairs = [
        ...[
          ['ink', 'paper'],
          ['soft', 'paper'],
          ['accent', 'paper'],
          ['on-accent', 'accent'],
        ],
        ...[
          ['ink', 'band'],
          ['soft', 'band'],
          ['accent', 'band'],
        ],
      ];
      for (const [front = '', back = ''] of pairs) {
        expect(contrast(of[front] ?? '', of[back] ?? ''), `${front} on ${back}`).toBeGreaterThanOrEqual(4.5);
      }
    }
  });
});
