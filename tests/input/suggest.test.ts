import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { verbs } from '../../src/core/job.ts';
import { cornerHint, meansCorner } from '../../src/input/job/corner-hint.ts';
import { didYouMean, suggest } from '../../src/input/suggest.ts';

const words = ['title', 'status', 'opened', 'vehicle', 'key-on', 'on'];

describe('suggest', () => {
  it.each([
    ['titel', 'title'],
    ['TITLE', 'title'],
    ['openned', 'opened'],
    ['statis', 'status'],
    ['keyon', 'key-on'],
    ['On', 'on'],
    ['vehilce', 'vehicle'],
  ])('%s means %s', (typed, meant) => {
    expect(suggest(typed, words)).toBe(meant);
  });

  it.each(['', 'banana', 'xy', 'k'.repeat(100)])('%s means none of them', (typed) => {
    expect(suggest(typed, words)).toBeNull();
  });

  it('prefers a word that was begun to one that only looks like it', () => {
    expect(suggest('sup', ['sump', 'supply', 'supply-rail'])).toBe('supply');
    expect(suggest('su', ['supply', 'sum'])).toBe('sum');
    expect(suggest('four-corner', ['four-corner-air', 'four-corner-sensors'])).toBeNull();
  });

  it('gives nothing where nothing is known', () => {
    expect(suggest('a', [])).toBeNull();
    expect(didYouMean('a', [])).toBeNull();
  });

  it('finds a word again after two of its neighbouring letters changed places', () => {
    const known = fc.stringMatching(/^[a-z]{4,12}$/u);
    fc.assert(
      fc.property(known, fc.nat(), (word, pick) => {
        const at = pick % (word.length - 1);
        const typed = `${word.slice(0, at)}${word[at + 1]}${word[at]}${word.slice(at + 2)}`;
        expect(suggest(typed, [word])).toBe(word);
      }),
    );
  });
});

describe('a word that erases, ends or gives up something', () => {
  it.each([
    'learned',
    'cleaned',
    'cleansed',
    'placed',
    'refined',
    'reclined',
    'posed',
    'chosen',
    'leased',
    'related',
    'entered',
    'bored',
    'connected',
    'towel',
    'scraped paint',
    'rammed',
    'configure it',
  ])('is not offered for %s', (typed) => {
    const offered = suggest(typed, verbs);
    expect([
      'cleared',
      'replaced',
      'disconnected',
      'released',
      'closed',
      'declined',
      'ordered',
    ]).not.toContain(offered);
  });

  it.each([
    ['clears', 'cleared'],
    ['claered', 'cleared'],
    ['cleard', 'cleared'],
    ['replacd', 'replaced'],
    ['replaces', 'replaced'],
    ['disconected', 'disconnected'],
    ['relased', 'released'],
    ['closedd', 'closed'],
    ['declned', 'declined'],
  ])('is offered for %s, which is a slip', (typed, meant) => {
    expect(suggest(typed, verbs)).toBe(meant);
  });

  it('is offered for no word that the log uses for something else', () => {
    const weighty = ['cleared', 'replaced', 'disconnected', 'released', 'closed', 'declined', 'skipped'];
    for (const verb of verbs) {
      const others = weighty.filter((one) => one !== verb);
      expect(suggest(verb, others)).toBeNull();
    }
  });
});

describe('didYouMean', () => {
  it('offers the nearest, else what was given, else a short choice', () => {
    expect(didYouMean('titel', words)).toBe('did you mean title?');
    expect(didYouMean('banana', words, 'write one')).toBe('write one');
    expect(didYouMean('banana', ['a-one', 'a-two'])).toBe('it can be a-one, a-two');
    const many = Array.from({ length: 25 }, (_, index) => `word-number-${index}`);
    expect(didYouMean('banana', many)).toBeNull();
  });
});

describe('corners', () => {
  it.each([
    ['FL', 'LF'],
    ['fr', 'RF'],
    ['rl', 'LR'],
    ['lr', 'LR'],
    ['front left', 'LF'],
    ['Rear-Right', 'RR'],
    ['left_rear', 'LR'],
  ])('%s means %s', (typed, corner) => {
    expect(cornerHint(typed)).toBe(`did you mean ${corner}?`);
    expect(meansCorner(typed)).toBe(true);
  });
  it.each(['', 'XX', 'L', 'middle', '__proto__', 'constructor'])('%j means none', (typed) => {
    expect(cornerHint(typed)).toBe('it can be LF, RF, LR, RR');
    expect(meansCorner(typed)).toBe(false);
  });
});
