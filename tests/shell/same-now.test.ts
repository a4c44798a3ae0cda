import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { makeFolder } from '../support/folder.ts';
import { projectRoot } from '../support/run.ts';

/** Every command says the same of what to do now. */

const asOf = ['--as-of', '2026-04-20T18:00'];

const example = (name: string): string => readFileSync(join(projectRoot, 'examples', name), 'utf8');
const shop = example('cornerwise.yaml');

interface SaidNow {
  readonly kind: string;
  readonly id: string | null;
  readonly title: string;
  readonly because: string;
  readonly command: string | null;
}

/** What to do and the line to type, as a sheet has them: how much is told of why differs. */
const nowIn = (text: string): string => {
  const lines = text.split('\n');
  const from = lines.findIndex((line) => line.startsWith('Now: '));
  const line = lines.slice(from).find((one) => /^ {5}(?:cornerwise|edit) /u.test(one)) ?? '';
  return `${lines[from] ?? ''} ${line}`.replaceAll(/\s+/gu, ' ');
};

/** So that no title is broken. */
const wide = ['--width', '200'];

const names = [
  'shuttle-03-yearly-look.yaml',
  'shuttle-05-rear-too-high.yaml',
  'shuttle-07-left-rear-low.yaml',
  'shuttle-12-four-sensor-codes.yaml',
];

describe('what to do now', () => {
  it.each(names)('is one for check, next, JSON and sweep: %s', async (name) => {
    const { run } = await makeFolder({ [name]: example(name), 'cornerwise.yaml': shop });
    const sheet = nowIn((await run(['check', name, ...asOf, ...wide])).stdout);
    expect(nowIn((await run(['next', name, ...asOf, ...wide])).stdout)).toBe(sheet);
    const { stdout } = await run(['check', name, ...asOf, '--format', 'json']);
    const { now } =
      (JSON.parse(stdout) as { readonly jobs: readonly { readonly now: SaidNow }[] }).jobs[0] ?? {};
    expect(sheet).toContain(now?.title);
    expect(sheet).toContain(now?.command);
    const swept = (await run(['sweep', name, ...asOf, '--format', 'json'])).stdout;
    const [row] = (JSON.parse(swept) as { readonly rows: readonly { readonly now: Partial<SaidNow> }[] })
      .rows;
    expect(row?.now).toMatchObject({ kind: now?.kind, title: now?.title });
  });

  it.each([
    ['log', ['inspected', 'linkage.LR', '--found', 'fault-seen', '--at', '2026-03-02T10:00']],
    ['add', ['running', 'battery=14.2 V', 'air=9 °C', '--at', '2026-03-02T10:00']],
  ])('is after %s what check says then', async (command, typed) => {
    const name = 'shuttle-07-left-rear-low.yaml';
    const { run } = await makeFolder({ [name]: example(name), 'cornerwise.yaml': shop });
    const now = Date.UTC(2026, 2, 2, 18);
    const { stdout, stderr, code } = await run([command, name, ...typed], { now });
    expect([code, stderr]).toEqual([0, '']);
    const after = nowIn((await run(['check', name, ...wide], { now })).stdout);
    expect(after).toMatch(/^Now: /u);
    const title = after.slice(0, after.indexOf(','));
    expect(stdout.replaceAll(/\s+/gu, ' ')).toContain(title);
  });
});
