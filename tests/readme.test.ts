import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { recordedOn, testPage } from './support/recorded-page.ts';
import { projectRoot } from './support/run.ts';

const text = readFileSync(join(projectRoot, 'README.md'), 'utf8');

testPage('README.md');

describe('the README', () => {
  it('has a tour', () => {
    expect(recordedOn(text).length).toBeGreaterThanOrEqual(5);
  });

  it('can be read in one sitting', () => {
    expect(text.split('\n').length).toBeLessThanOrEqual(301);
  });

  it('gives the two commands that do everything', () => {
    expect(text).toContain('npm ci && npm start');
    expect(text).toContain('npm ci && npm test');
  });
});
