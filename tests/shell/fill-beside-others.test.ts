import { readFile } from 'node:fs/promises';
import { basename } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Job, LogEntry, Snapshot } from '../../src/core/job.ts';
import { braces, text } from '../../src/input/edit/value.ts';
import { isOneMoment } from '../../src/shell/fill/where-to.ts';
import { libraryCache } from '../../src/shell/library-cache.ts';
import { changeJob, type Outcome } from '../../src/shell/save/change-job.ts';
import { takeBack } from '../../src/shell/save/take-back.ts';
import { ioBeside, jobFile } from './save/job-file.ts';

const note = (file: string): Promise<Outcome> =>
  changeJob(
    basename(file),
    () => ({
      change: {
        kind: 'append',
        to: ['log'],
        items: [
          braces([
            ['at', text('2026-03-02T09:00')],
            ['did', text('noted')],
            ['note', text('x')],
          ]),
        ],
      },
      what: 'noted',
    }),
    { rules: [], io: ioBeside(file), libraries: libraryCache(), asOf: null, by: 'log' },
  );

const minute = 60_000;
const snapshot = { stamp: { at: 100 * minute, resolution: 1000 } } as Snapshot;
const job = (...log: Partial<LogEntry>[]): Job => ({ log }) as unknown as Job;
const done = (did: LogEntry['did'], at: number): Partial<LogEntry> => ({
  did,
  stamp: { at: at * minute, resolution: 1000 },
});

describe('a reading belongs to the moment of a snapshot', () => {
  it('for half an hour after the last answer that went into it', () => {
    expect(isOneMoment(snapshot, job(), 129 * minute, null)).toBe(true);
    expect(isOneMoment(snapshot, job(), 131 * minute, null)).toBe(false);
    expect(isOneMoment(snapshot, job(), 150 * minute, 125 * minute)).toBe(true);
  });

  it.each(['replaced', 'cleared', 'drove'] as const)('until somebody %s something', (did) => {
    expect(isOneMoment(snapshot, job(done(did, 105)), 110 * minute, 109 * minute)).toBe(false);
    expect(isOneMoment(snapshot, job(done(did, 95)), 110 * minute, null)).toBe(true);
  });
});

describe('taking back one change and no other', () => {
  it('leaves what somebody else has written since', async () => {
    const file = await jobFile();
    const mine = await note(file);
    if (mine.kind !== 'changed') throw new Error('not changed');
    await note(file);
    const both = await readFile(file, 'utf8');
    const outcome = await takeBack(file, ioBeside(file), mine.digest);
    expect(outcome).toMatchObject({ kind: 'trouble' });
    expect(await readFile(file, 'utf8')).toBe(both);
  });

  it('takes it back where it is still the last', async () => {
    const file = await jobFile();
    const before = await readFile(file, 'utf8');
    const mine = await note(file);
    if (mine.kind !== 'changed') throw new Error('not changed');
    expect(await takeBack(file, ioBeside(file), mine.digest)).toMatchObject({ kind: 'taken-back' });
    expect(await readFile(file, 'utf8')).toBe(before);
  });
});
