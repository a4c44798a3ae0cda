import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { codeText, neverTested, statusNames, statusOf } from '../../src/core/codes.ts';
import { projectRoot } from '../support/run.ts';

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

/**
 * What failure type bytes mean, in the words that codes have here. The list belongs to SAE J2012-DA and ISO 15031-6, which
 * were not at hand; it is that in which four transcriptions in public repositories agree. Of 55 and 98 one of the four
 * differs.
 */
const failureTypes: Readonly<Record<string, readonly string[]>> = {
  '11': ['circuit-short'], // circuit short to ground
  '12': ['circuit-short'], // circuit short to battery
  '13': ['circuit-open'], // circuit open
  '14': ['circuit-short', 'circuit-open'], // circuit short to ground or open
  '15': ['circuit-short', 'circuit-open'], // circuit short to battery or open
  '16': ['signal-range'], // circuit voltage below threshold
  '17': ['signal-range'], // circuit voltage above threshold
  '49': ['internal-fault'], // internal electronic failure
  '51': ['not-programmed'], // not programmed
  '54': ['not-calibrated'], // missing calibration
  '55': ['not-configured'], // not configured
  '87': ['communication'], // missing message
  '96': ['internal-fault'], // component internal failure
  '98': ['over-temperature'], // component or system over temperature
};

describe('failure type bytes', () => {
  const shipped = readdirSync(join(projectRoot, 'rules/handover')).map((file) => {
    const pack = parse(readFileSync(join(projectRoot, 'rules/handover', file), 'utf8')) as {
      checks: { id: string; 'failure-types'?: Record<string, string> }[];
    };
    return { file, types: pack.checks.find(({ id }) => id === 'stored-code')?.['failure-types'] ?? {} };
  });

  it.each(shipped)('mean in $file what the list says', ({ types }) => {
    expect(Object.keys(types)).toEqual(expect.arrayContaining(['51', '54', '55']));
    for (const [byte, meaning] of Object.entries(types))
      expect([byte, failureTypes[byte] ?? []]).toEqual([byte, expect.arrayContaining([meaning])]);
  });
});
