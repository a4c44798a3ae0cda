import { describe, expect, it } from 'vitest';
import type { Gap } from '../../../src/core/proofs/gaps.ts';
import { gapWords } from '../../../src/report/words/gap-words.ts';

const words = (gap: Gap, meant: string | null = null) => gapWords({ gap, line: 1, meant });

const moved = {
  kind: 'unnoticed',
  path: [],
  check: 'bench/rails',
  from: '0.25 V',
  to: '0.245 V',
  share: 0.02,
  way: 'down',
} as const;
const suggestion = {
  like: 40,
  name: 'position.LF',
  snapshot: '',
  value: '0.247',
  unit: 'V',
  subject: 'LF',
  expecting: 'out hold',
} as const;

describe('the words of a gap', () => {
  it('name the limit, how it was moved, and the proof that would notice', () => {
    expect(words({ ...moved, suggestion })).toEqual({
      fails: 'no proof of rails notices its 0.25 V moved down by 2 %, to 0.245 V',
      write: 'add a proof with position.LF at 0.247 V, expecting out hold; else like the one in line 40',
    });
  });

  it('name the subject and the snapshot where the reading does not', () => {
    const { write } = words({
      ...moved,
      suggestion: { ...suggestion, subject: 'front', snapshot: 'high', expecting: 'out look' },
    });
    expect(write).toBe(
      'add a proof with position.LF at 0.247 V in high, expecting out look of front; else like the one in line 40',
    );
  });

  it('say between what a proof has to lie where none is found', () => {
    expect(words({ ...moved, suggestion: null }).write).toBe(
      'add a proof that lies between 0.25 V and 0.245 V',
    );
  });

  it('say which end is never reported, and where it could be', () => {
    const gap = {
      kind: 'never-reported',
      path: [],
      check: 'bench/rails',
      weight: 'look',
      heavier: 'hold',
    } as const;
    expect(words({ ...gap, side: 'low', limit: '0.2 V', heavierLimit: '0.25 V' })).toEqual({
      fails:
        'the look limit of 0.2 V of rails can never be reported, since the hold limit of 0.25 V comes before it',
      write: 'put it above 0.25 V, or leave it out',
    });
    expect(words({ ...gap, side: 'high', limit: '5 V', heavierLimit: '4.75 V' }).write).toBe(
      'put it below 4.75 V, or leave it out',
    );
  });

  it('offer what was meant', () => {
    const gap = {
      kind: 'unknown-name',
      path: [],
      what: 'step',
      name: 'progam',
      by: 'step learn',
      known: ['program'],
    } as const;
    expect(words(gap, 'program')).toEqual({
      fails: 'step learn asks for the step progam, which none of these packs has',
      write: 'did you mean program?',
    });
    expect(words(gap).write).toBe('name one of program');
  });

  it('say what to write for all the rest', () => {
    expect(words({ kind: 'no-unit', path: [], check: 'bench/rails', text: '0.25', unit: 'V' }).write).toBe(
      'write 0.25 V',
    );
    expect(words({ kind: 'no-unit', path: [], check: 'bench/rails', text: '30', unit: null }).write).toBe(
      'write its unit behind it',
    );
    expect(words({ kind: 'step-not-shown', path: [], step: 'program' }).write).toBe(
      'add a proof whose job makes it needed, expecting steps: {program: ready}, or waiting',
    );
    expect(words({ kind: 'channel-not-judged', path: [], channel: 'tank' }).fails).toBe(
      'no check judges tank',
    );
    expect(words({ kind: 'caution-not-used', path: [], caution: 'mind' })).toEqual({
      fails: 'nothing names the caution mind',
      write: 'name it where it is to be heeded: cautions: [mind], or leave it out',
    });
    expect(words({ kind: 'not-shown', path: [], check: 'bench/rails', lacks: 'firing' }).write).toBe(
      'add a proof in which it is out',
    );
    expect(words({ kind: 'not-shown', path: [], check: 'bench/rails', lacks: 'silent' }).write).toBe(
      'add a proof in which it is within',
    );
    expect(words({ kind: 'nothing-run', path: [] }).fails).toContain('nothing was run');
  });
});
