import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { kinds } from '../src/core/checks/kinds/index.ts';
import { problemCodes } from '../src/core/flaw.ts';
import { jobSchema } from '../src/input/schema/job-schema.ts';
import { exitCodes } from '../src/shell/shell.ts';
import { recordedOn, testPage } from './support/recorded-page.ts';
import { projectRoot, runCli } from './support/run.ts';

const docs = readdirSync(join(projectRoot, 'docs')).map((file) => `docs/${file}`);
const read = (page: string): string => readFileSync(join(projectRoot, page), 'utf8');

for (const page of docs) if (recordedOn(read(page)).length > 0) testPage(page);

describe('docs/job-file.md', () => {
  const page = read('docs/job-file.md');

  it('is what its generator writes from the schema', async () => {
    const { jobFilePage } = await import(join(projectRoot, '.config/build/job-file-page.mjs'));
    expect(page).toBe(jobFilePage(jobSchema));
  });

  it('has examples that together are one job', async () => {
    const job = [...page.matchAll(/```yaml\n([\s\S]*?)```/gu)].map(([, body = '']) => body).join('');
    const asOf = ['--as-of', '2026-03-02T18:00', '--fail-on', 'never'];
    const { code, stderr } = await runCli(['check', '-', ...asOf], { stdin: job });
    expect(stderr).toBe('');
    expect(code).toBe(0);
  });
});

describe('docs/errors.md', () => {
  it('is what its generator writes from the reproducers', async () => {
    const { errorsPage } = await import(join(projectRoot, '.config/build/errors-page.mjs'));
    const texts = readdirSync(join(projectRoot, 'tests/reproducers')).filter((file) => file.endsWith('.txt'));
    const outputs = Object.fromEntries(
      texts.map((file) => [file.slice(0, -4), read(`tests/reproducers/${file}`)]),
    );
    expect(read('docs/errors.md')).toBe(errorsPage(exitCodes, problemCodes, outputs));
  });
});

describe('the pages', () => {
  it('name every kind of check', () => {
    const page = read('docs/rule-packs.md');
    expect(kinds.filter(({ kind }) => !page.includes(`| \`${kind}\` |`))).toEqual([]);
  });

  it('hold recorded console examples', () => {
    expect(docs.filter((page) => recordedOn(read(page)).length > 0).length).toBeGreaterThanOrEqual(3);
  });

  it.each(['README.md', 'DEVELOPERS.md', 'CHANGELOG.md', ...docs])(
    '%s links only to what there is',
    (page) => {
      const links = [...read(page).matchAll(/\]\(([^)#:]+)\)/gu)].map(([, link = '']) => link);
      const missing = links.filter((link) => !existsSync(join(projectRoot, dirname(page), link)));
      expect(missing).toEqual([]);
    },
  );

  it.each(docs)('%s is reached from the README', (page) => {
    expect(read('README.md')).toContain(`](${page})`);
  });
});
