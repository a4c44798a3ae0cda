import { cpSync, mkdirSync, writeFileSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { projectRoot } from '../support/run.ts';
import { jobText, pinned } from '../support/sweep.ts';
import { type Ended, runEach } from './built-program.ts';

/** What is printed or written and does not get there: exit code 3 and one sentence, and never a verdict. */
let top = '';

const lost = /^cornerwise: what was to be printed could not be written \(ENOSPC\)$/mu;

const cases: readonly (readonly [name: string, line: string, code: number, says: RegExp])[] = [
  ['a full disk behind check', '"$CW" check good.yaml > /dev/full', 3, lost],
  ['a full disk behind check, something out', '"$CW" check out.yaml > /dev/full', 3, lost],
  ['a full disk behind --version', '"$CW" --version > /dev/full', 3, lost],
  ['a full disk behind help', '"$CW" --help > /dev/full', 3, lost],
  ['a full disk behind a schema', '"$CW" schema job > /dev/full', 3, lost],
  ['a full disk behind errors', '"$CW" check none.yaml 2> /dev/full', 3, /^$/u],
  ['nobody who reads errors', '"$CW" check none.yaml 2> >(exec true)', 3, /^$/u],
  ['a full disk behind all', '"$CW" check out.yaml > /dev/full 2>&1', 3, /^$/u],
  [
    'a reader that has seen enough',
    'set -o pipefail; "$CW" check out.yaml --all --format json | head -c 10',
    1,
    /^\{/u,
  ],
  ['a reader of all that has seen enough', 'set -o pipefail; "$CW" check none.yaml 2>&1 | true', 2, /^$/u],
  [
    'a file of a sweep that has no room',
    '"$CW" sweep . --out html=/dev/full/x --quiet --fail-on never',
    3,
    /could not be written/u,
  ],
  [
    'a night that nobody could read',
    '"$CW" sweep . --remember > /dev/full; echo $?; ls .cornerwise-sweep.ndjson',
    2,
    /^3$[\s\S]*No such file/mu,
  ],
  [
    'a copy that is not built',
    'node "$COPY/bin/cornerwise.js" check good.yaml',
    3,
    /not built yet; run "npm ci" in /u,
  ],
];

let outcomes: ReadonlyMap<string, Ended> = new Map();

beforeAll(async () => {
  top = await mkdtemp(join(tmpdir(), 'cornerwise-faults-'));
  mkdirSync(join(top, 'copy'));
  cpSync(join(projectRoot, 'bin'), join(top, 'copy/bin'), { recursive: true });
  outcomes = await runEach(
    cases.map(([name, line]) => [name, line] as const),
    top,
    (folder) => {
      writeFileSync(join(folder, 'good.yaml'), jobText());
      writeFileSync(join(folder, 'out.yaml'), pinned());
    },
    { COPY: join(top, 'copy') },
  );
}, 600_000);

afterAll(() => rm(top, { recursive: true, force: true }));

describe('what is printed and written', () => {
  it.each(cases)('%s', (name, _, code, says) => {
    const ended = outcomes.get(name);
    expect(`${ended?.stdout}${ended?.stderr}`).toMatch(says);
    expect(ended?.code).toBe(code);
  });
});
