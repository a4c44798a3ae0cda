import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { projectRoot, runCli } from '../support/run.ts';

const cautious = 'examples/shuttle-05-rear-too-high.yaml';

describe('check --format markdown', () => {
  const headsOf = (stdout: string): string[] => stdout.split('\n').filter((line) => line.startsWith('### '));

  it('says of a job what the worksheet says, and whose word comes first', async () => {
    const { stdout, code } = await runCli([
      ...['check', 'examples/shuttle-07-left-rear-low.yaml', '--as-of', '2026-03-02T18:00'],
      ...['--format', 'markdown'],
    ]);
    expect(headsOf(stdout)).toEqual([
      '### Findings',
      '### Not taken',
      '### Suspects',
      '### Steps outstanding, in order',
      '### Cautions',
      '### Hold points',
    ]);
    expect(stdout).toContain('| OUT hold | Left against right | rear key-on | -1.27 ± 0.08 V | -1 to 1 V |');
    expect(stdout).toContain('vehicle maker’s service information');
    expect(code).toBe(1);
  });

  it('has the cautions of the steps, and what was left out', async () => {
    const { stdout } = await runCli([
      ...['check', cautious, '--as-of', '2026-02-27T15:00Z', '--format', 'markdown'],
    ]);
    expect(headsOf(stdout)).toContain('### Cautions');
    expect(stdout).toContain('body on air can drop');
    const early = await runCli([
      ...['check', cautious, '--as-of', '2026-01-01T00:00Z', '--format', 'markdown'],
    ]);
    expect(early.stdout).toMatch(/^warning: .*lies after the time judged/mu);
  });

  it('says first whether the vehicle may leave, and what to do now, as the sheet does', async () => {
    const call = ['check', 'tests/cases/204-lies-down-and-not-a-sound.yaml', '--as-of', '2026-09-02T18:00Z'];
    const { stdout } = await runCli([...call, '--format', 'markdown']);
    const [, , status, , leaves, , now, , why, , caution] = stdout.split('\n');
    expect(status).toMatch(/^Status open/u);
    expect(leaves).toBe('**DO NOT DRIVE: the body stands on its stops**');
    expect(why).toBe('the job says: the body stands on its stops');
    expect(caution).toMatch(/^\*\*CAUTION:\*\* /u);
    expect(stdout).toMatch(/^`cornerwise (?:log|add|fill) tests\/cases\/204-[^`]*`$/mu);
    const sheet = await runCli([...call, '--width', '200']);
    const [, said, head] = sheet.stdout.split('\n');
    expect([`**${said}**`, `**${head}**`]).toEqual([leaves, now]);
  });

  it('quotes the line to type as code, whatever the file is called', async () => {
    const { stdout } = await runCli(
      ['check', 'a`b``c.yaml', '--as-of', '2026-03-02T09:00', '--format', 'markdown'],
      {
        files: {
          'a`b``c.yaml': readFileSync(join(projectRoot, 'examples/shuttle-07-left-rear-low.yaml'), 'utf8'),
        },
      },
    );
    expect(stdout).toMatch(/^``` cornerwise \S+ 'a`b``c\.yaml'.* ```$/mu);
  });

  it('calls a hold point that holds nothing a reminder', async () => {
    const { stdout } = await runCli([
      ...['check', 'examples/shuttle-07-left-rear-low.yaml', '--as-of', '2026-03-02T18:00'],
      ...['--format', 'markdown'],
    ]);
    expect(stdout).toContain('\n- Release to the driver: **not clear**\n');
    expect(stdout).toContain('\n- Order of the part: a reminder, which holds nothing\n');
  });

  it('gives every row of a table as many cells as its head', async () => {
    const { stdout } = await runCli([
      ...[
        'check',
        'examples/shuttle-22-rear-sinks-when-loaded.yaml',
        '--as-of',
        '2026-07-14T18:00',
        '--format',
        'markdown',
      ],
    ]);
    const rows = stdout.split('\n').filter((line) => line.startsWith('|'));
    const cells = (row: string): number => row.split(/(?<!\\)\|/u).length - 2;
    expect(rows.length).toBeGreaterThan(4);
    expect(new Set(rows.map(cells))).toEqual(new Set([6, 2]));
  });

  it('marks up nothing that stands in a file', async () => {
    const text = `worksheet: 1
job: S07-0001
title: '<b>| *wet* [plug](x) _at_ #1'
opened: 2026-03-02T08:00
zone: UTC
status: open
packs: [supply-charging@1]
vehicle: {name: Shuttle 7, layout: four-corner-air, battery: agm, charging: fixed}
snapshots: []
`;
    const { stdout } = await runCli(
      ['check', 'job.yaml', '--as-of', '2026-03-02T09:00', '--format', 'markdown'],
      {
        files: { 'job.yaml': text },
      },
    );
    expect(stdout.split('\n')[0]).toBe(
      '## Shuttle 7 · S07-0001 · \\<b\\>\\| \\*wet\\* \\[plug\\](x) \\_at\\_ \\#1',
    );
  });

  it('has a part for a file that cannot be judged, and judges the others', async () => {
    const { stdout, stderr, code } = await runCli([
      ...['check', 'no-such-file.yaml', cautious, '--as-of', '2026-02-27T15:00Z', '--format', 'markdown'],
    ]);
    expect(stdout).toContain(
      '## no-such-file.yaml: cannot be judged\n\n- no-such-file.yaml: there is no such file',
    );
    expect(stdout).toContain('## Shuttle 5');
    expect({ stderr, code }).toEqual({ stderr: '', code: 2 });
  });

  it('is not watched', async () => {
    const { stderr, code } = await runCli(['check', cautious, '--watch', '--format', 'markdown']);
    expect(code).toBe(2);
    expect(stderr).toContain('--watch cannot give one markdown document');
  });
});
