import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  allSymptomWords,
  symptomPairs,
  symptomsIn,
  typedSymptoms,
} from '../../../src/input/fresh/symptom-words.ts';
import { understood } from '../../support/typing.ts';

describe('the symptoms that a complaint seems to tell of', () => {
  it.each([
    ['Sits low at the left rear in the morning', 'LR low after-standing'],
    ['LR low in the morning', 'LR low after-standing'],
    ["Left rear sits low after a night's standing", 'LR low after-standing'],
    ['Leans to the left', 'left uneven'],
    ['Hisses at the front when parked', 'front after-standing hiss'],
    ['Bouncy on the motorway', 'on-the-road bouncy'],
    ['Knocks at rl in the cold', 'LR cold knock'],
    ['Low at the front and at the rear', 'low'],
    ['Low at LR and RR', 'low'],
    ['Warning lamp on. Rides level.', ''],
    ['It does not sit low, and there is no hiss', ''],
    ['', ''],
  ])('%j: %j', (complaint, words) => {
    expect(symptomsIn(complaint)).toBe(words);
  });

  it('are always such as could be typed', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.oneof(fc.constantFrom(...allSymptomWords, 'left', 'morning', 'not', 'and'), fc.string()),
          {
            maxLength: 12,
          },
        ),
        (words) => {
          const found = symptomsIn(words.join(' '));
          if (found === '') return;
          expect(understood(typedSymptoms(found))).toBe(found);
          expect(symptomPairs(found)).toHaveLength(found.split(' ').length);
        },
      ),
    );
  });
});
