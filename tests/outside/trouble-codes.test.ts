import { describe, expect, it } from 'vitest';
import { codeText, neverTested, statusNames, statusOf } from '../../src/core/codes.ts';

/** Source: ISO 15031-6 / SAE J2012, two bytes to text; the examples come from secondary texts and were recomputed. */
describe('two-byte codes to text', () => {
  it.each([
    [0x0143, 'P0143'],
    [0xc073, 'U0073'],
    [0x9000, 'B1000'],
    [0x4031, 'C0031'],
    [0x8039, 'B0039'],
    [0x0127, 'P0127'],
  ])('%i is %s', (bytes, text) => {
    expect(codeText(bytes)).toBe(text);
  });
});

/** Source: ISO 14229-1, D.2, status byte; three agreeing texts. */
describe('the status byte', () => {
  it.each([
    [0x09, ['testFailed', 'confirmed']],
    [0x28, ['confirmed', 'testFailedSinceLastClear']],
    [0x50, ['testNotCompletedSinceLastClear', 'testNotCompletedThisOperationCycle']],
    [0x86, ['testFailedThisOperationCycle', 'pending', 'warningIndicatorRequested']],
  ])('%i sets %j', (mask, names) => {
    expect(statusNames(mask)).toEqual(names);
  });

  it.each([
    [0x09, 'present'],
    [0x28, 'stored'],
    [0x04, 'pending'],
    [0x50, 'history'],
  ])('%i counts as %s', (mask, status) => {
    expect(statusOf(mask)).toBe(status);
  });

  it('0x50 is just cleared and not tested since; 0x10 or 0x40 alone is not', () => {
    expect([0x50, 0x10, 0x40, 0x58].map(neverTested)).toEqual([true, false, false, true]);
  });
});
