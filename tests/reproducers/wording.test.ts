import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

const here = import.meta.dirname;
const texts = readdirSync(here).filter((file) => file.endsWith('.txt'));

interface Said {
  readonly message: string;
  readonly hint: string;
}

/** The sentences of a reproducer's text: what is wrong, and what to write. */
const saidIn = (file: string): Said[] =>
  readFileSync(join(here, file), 'utf8')
    .trim()
    .split('\n\n')
    .map((part) => {
      const lines = part.split('\n');
      const message = /^\S+: (.*) \[[a-z0-9-]+\]$/u.exec(lines[0] ?? '')?.[1];
      return { message: message ?? '', hint: (lines.at(-1) ?? '').trim() };
    });

describe('messages read as if one person had written them', () => {
  it.each(texts)('%s', (file) => {
    for (const { message, hint } of saidIn(file)) {
      for (const sentence of [message, hint]) {
        expect(sentence).toMatch(/^[^A-Z\s]|^[A-Z0-9]+\b/u);
        expect(sentence).not.toMatch(/[.!]$/u);
        expect(sentence).not.toMatch(
          /\b(?:error|invalid|illegal|please|sorry|must|expected|you cannot|failed)\b/iu,
        );
        expect(sentence).not.toMatch(/\b(?:object|array|string|token|node|schema|scalar|null|undefined)\b/iu);
        expect(sentence.length).toBeGreaterThan(3);
        expect(sentence.length).toBeLessThan(140);
      }
      expect(message).not.toBe(hint);
      expect(hint.endsWith('?')).toBe(hint.startsWith('did you mean '));
    }
  });

  it('points at its place with a caret below the line', () => {
    for (const file of texts) {
      for (const part of readFileSync(join(here, file), 'utf8').split('\n\n')) {
        const [first = '', line = '', caret = ''] = part.split('\n');
        const place = /^\S+:(\d+):(\d+): /u.exec(first);
        if (!place || line.includes('…')) continue;
        const gutter = `  ${place[1]} | `;
        expect(line.startsWith(gutter)).toBe(true);
        expect(caret).toBe(`${' '.repeat(gutter.length + Number(place[2]) - 1)}^`);
      }
    }
  });
});
