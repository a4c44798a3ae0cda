import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { type Change, insertionsFor } from '../../../src/input/edit/change.ts';
import { insert } from '../../../src/input/edit/insertion.ts';
import { saysAsIntended } from '../../../src/input/edit/verify.ts';
import { readYaml } from '../../../src/input/yaml/read-yaml.ts';
import { jobFaults } from '../problems-of.ts';
import {
  asValue,
  type Edit,
  intended,
  type PlainMap,
  randomEdit,
  randomJob,
  type Tape,
  tapeOf,
} from './random-job.ts';
import { randomLayout } from './random-layout.ts';
import { type Stretch, stretchesOf, takeOut } from './stretches.ts';

const tapes = fc.uint16Array({ minLength: 400, maxLength: 700 });

const changeOf = (tape: Tape, edit: Edit): Change =>
  edit.kind === 'put'
    ? { ...edit, value: asValue(tape, edit.value) }
    : { ...edit, items: edit.items.map((item) => asValue(tape, item)) };

/** What a text says, by the parser alone. */
const said = (text: string): unknown => parse(text, { version: '1.2', schema: 'core' });

/** The text outside of the stretches, worked out apart from the code that is tested. */
const around = (text: string, stretches: readonly Stretch[]): string =>
  text
    .split('')
    .filter((_, index) => !stretches.some(({ at, length }) => index >= at && index < at + length))
    .join('');

/** The text with a change and where it was made, or null where the program would refuse it. */
const changed = (text: string, change: Change): { after: string; stretches: Stretch[] } | null => {
  const { root } = readYaml(text);
  if (root === null) throw new Error('the layout cannot be read');
  const insertions = insertionsFor(text, root, change);
  if (insertions === null) return null;
  const after = insert(text, insertions);
  const read = readYaml(after).root;
  const isSafe = read !== null && saysAsIntended(root, change, read);
  return isSafe ? { after, stretches: stretchesOf(insertions, text) } : null;
};

describe('a job file in any layout', () => {
  it('says what was put in and nothing else, keeps every other byte, and can be taken back', () => {
    const edits = { made: 0, refused: [] as string[] };
    fc.assert(
      fc.property(tapes, (numbers) => {
        const tape = tapeOf(numbers);
        let job: PlainMap = randomJob(tape);
        let text = randomLayout(tape, job);
        expect(said(text)).toEqual(job);
        expect(jobFaults(text)).toEqual([]);
        const count = 1 + tape.pick(3);
        for (let number = 0; number < count; number += 1) {
          const edit = randomEdit(tape, job, number);
          const done = changed(text, changeOf(tape, edit));
          if (done === null) {
            edits.refused.push(`${JSON.stringify(edit)} in\n${text}`);
            return;
          }
          edits.made += 1;
          job = intended(job, edit);
          expect(said(done.after)).toEqual(job);
          expect(around(done.after, done.stretches)).toBe(text);
          expect(takeOut(done.after, done.stretches)).toBe(text);
          text = done.after;
        }
        expect(jobFaults(text)).toEqual([]);
      }),
      { numRuns: 250, seed: 20260302 },
    );
    // None of these layouts is one in which an edit may be refused.
    expect(edits.refused).toEqual([]);
    expect(edits.made).toBeGreaterThan(400);
  });
});
