import { writeFileSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { makeFolder } from '../support/folder.ts';
import { jobText } from '../support/sweep.ts';
import { type Ended, runEach } from './built-program.ts';

/** What happens to files while the program is at them: whatever the moment, it ends with what it knows. */
let top = '';

const cases: readonly (readonly [name: string, line: string, code: number, says: RegExp])[] = [
  [
    'commands that are killed at any moment',
    `cp good.yaml first.yaml; "$CW" log good.yaml noted vehicle --quiet
for at in 1 15 2 25 3 4 6 8; do timeout -s KILL 0.$at "$CW" log good.yaml noted vehicle --quiet; done
"$CW" check good.yaml --quiet --fail-on never && "$CW" undo good.yaml --to 1 && cmp good.yaml first.yaml
echo $?; ls -A | grep -c '^\\.good'`,
    1,
    /brought back version 1[\s\S]*^0\n0$/mu,
  ],
  [
    'a file that grows while it is read',
    `while sleep 0.01; do echo "# more" >> good.yaml; done & writer=$!
"$CW" check good.yaml --fail-on never; code=$?; "$CW" log good.yaml noted vehicle --quiet; kill $writer; exit $code`,
    0,
    /Shuttle 4/u,
  ],
  [
    'a file that comes and goes during a sweep',
    `while sleep 0.001; do cp good.yaml other.yaml; rm other.yaml; done & writer=$!
for round in 1 2 3; do "$CW" sweep . --fail-on never --format ndjson; [ $? -le 1 ] || echo broken; done; kill $writer`,
    0,
    /^(?:\{"format":1,"file":"(?:good|other)\.yaml".*\n)+$/u,
  ],
  [
    'a file that goes while it is changed',
    `while sleep 0.001; do mv good.yaml away.yaml; mv away.yaml good.yaml; done & writer=$!
for round in 1 2 3; do "$CW" log good.yaml noted vehicle --quiet; [ $? -le 2 ] || echo broken; done 2> said
kill $writer; wait; mv away.yaml good.yaml 2> /dev/null; "$CW" check good.yaml --fail-on never`,
    0,
    /^(?![\s\S]*broken)[\s\S]*Shuttle 4/u,
  ],
];

let outcomes: ReadonlyMap<string, Ended> = new Map();

beforeAll(async () => {
  top = await mkdtemp(join(tmpdir(), 'cornerwise-faults-'));
  outcomes = await runEach(
    cases.map(([name, line]) => [name, line] as const),
    top,
    (folder) => writeFileSync(join(folder, 'good.yaml'), jobText()),
  );
}, 600_000);

afterAll(() => rm(top, { recursive: true, force: true }));

describe('what happens meanwhile', () => {
  it.each(cases)('%s', (name, _, code, says) => {
    const ended = outcomes.get(name);
    expect(`${ended?.stdout}${ended?.stderr}`).toMatch(says);
    expect(ended?.code).toBe(code);
  });
});

describe('a clock that goes back', () => {
  it('leaves every entry with the time that it was given, and says what lies ahead', async () => {
    const folder = await makeFolder({ 'a.yaml': jobText() });
    const at = (hour: number) => ({ now: Date.UTC(2026, 2, 2, hour) });
    const log = (what: string, hour: number) => folder.run(['log', 'a.yaml', ...what.split(' ')], at(hour));
    await log('replaced sensor.LR', 12);
    const { code, stdout } = await log('noted vehicle', 9);
    expect(code).toBe(0);
    expect(stdout.replace(/\s+/gu, ' ')).toContain(
      'the log entry replaced sensor.LR (2026-03-02 12:00) lies after the time judged and is left out',
    );
    const times = [...(await folder.read('a.yaml')).matchAll(/at: (\S+), did/gu)].map(([, time]) => time);
    expect(times).toEqual(['2026-03-02T12:00:00', '2026-03-02T09:00:00']);
    // The last change is the one that was made last, whatever the clock said.
    expect((await folder.run(['undo', 'a.yaml'], at(8))).stdout).toContain('took back noted');
    const later = await folder.run(['check', 'a.yaml', '--fail-on', 'never'], at(13));
    expect(later.stdout).not.toContain('lies after');
  });
});
