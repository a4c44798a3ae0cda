import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { projectRoot, runCli } from '../support/run.ts';

const jobs = readdirSync(join(projectRoot, 'examples')).filter((file) => file.startsWith('shuttle-'));
const asOf = ['--as-of', '2026-07-20T12:00'];
const controls = /[\u0000-\u0009\u000b-\u001f\u007f]/u;

/** Lines but for those to be typed, which are never broken and have blanks to fill in. */
const withoutCommands = (text: string): string[] =>
  text.split('\n').filter((line) => !/^ {5}(?:cornerwise|edit) /u.test(line));

describe.each(jobs)('%s', (job) => {
  const file = `examples/${job}`;

  it.each([80, 120])('keeps within %i columns, and defers to the vehicle maker', async (width) => {
    const { stdout } = await runCli(['check', file, ...asOf, '--width', String(width)]);
    const long = withoutCommands(stdout).filter((line) => [...line].length > width);
    expect(long).toEqual([]);
    expect(stdout.replace(/\s+/gu, ' ')).toContain(
      'The vehicle maker’s service information, local codes and licensed practice come first.',
    );
  });

  it.each([60, 120])('keeps all that there is to say within %i columns, and cuts nothing', async (width) => {
    for (const call of [['check', file, '--all'] as const, ['next', file] as const]) {
      const { stdout } = await runCli([...call, ...asOf, '--width', String(width)]);
      const lines = withoutCommands(stdout);
      expect(lines.filter((line) => [...line].length > width)).toEqual([]);
      expect(lines.join('\n')).not.toContain('…');
    }
  });

  it('is plain ASCII when asked, and ends no line with a space', async () => {
    const { stdout } = await runCli(['check', file, ...asOf, '--ascii', '--all']);
    expect(stdout).toMatch(/^[\n\u0020-\u007e]*$/u);
    expect(stdout.split('\n').filter((line) => line.endsWith(' '))).toEqual([]);
  });

  it('sends no control to a pipe, and says the same with and without colour', async () => {
    const plain = await runCli(['check', file, ...asOf]);
    const coloured = await runCli(['check', file, ...asOf, '--color']);
    expect(plain.stdout).not.toMatch(controls);
    expect(coloured.stdout.replace(/\u001b\[\d+(;\d+)*m/gu, '')).toBe(plain.stdout);
    expect(coloured.stdout).not.toBe(plain.stdout);
  });

  it('is the same, byte for byte, the second time', async () => {
    const first = await runCli(['check', file, ...asOf, '--format', 'json']);
    const second = await runCli(['check', file, ...asOf, '--format', 'json']);
    expect(second).toEqual(first);
  });
});

describe('packs', () => {
  it.each([60, 80])('are listed and shown within %i columns, and nothing is cut', async (width) => {
    for (const words of [['list'], ['show', 'position-signals'], ['show', 'corner-suspects']]) {
      const { stdout } = await runCli(['packs', ...words, '--width', String(width)]);
      expect(stdout.split('\n').filter((line) => [...line].length > width)).toEqual([]);
      expect(stdout).not.toContain('…');
    }
  });
});
