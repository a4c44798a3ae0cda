import { describe, expect, it } from 'vitest';
import type { LogEntry } from '../../../src/core/job.ts';
import { decisionsOf } from '../../../src/core/loop/decisions.ts';
import { jobOf, keyOn, packOf } from '../../support/judge.ts';
import { benchChecks, benchEvidence, benchSuspects } from '../suspects/bench-pack.ts';

const pack = packOf(`${benchChecks}${benchEvidence}${benchSuspects}`);

const logOf = (...entries: string[]): readonly LogEntry[] => {
  const lines = entries.map((entry, at) => `{at: 2026-03-02T09:${String(10 + at)}, ${entry}}`);
  return jobOf(`${keyOn('{battery: 12.5 V}')}log: [${lines.join(', ')}]\n`, [pack]).log;
};
const decided = (...entries: string[]) => decisionsOf({ log: logOf(...entries) });

const released = 'did: released, what: vehicle';
const passedOn = 'did: passed-on, what: vehicle, to: the dealer';
const declined = 'did: declined, what: sensor.LR';
const skipped = 'did: skipped, what: try-arm.LR, reason: no stands';

describe('what people decided', () => {
  it('is nothing where nobody did', () => {
    expect(decided()).toEqual({
      passedOn: null,
      declined: new Set(),
      skipped: new Map(),
      released: null,
      closed: null,
    });
  });

  it('lasts until the vehicle is worked on again', () => {
    expect(decided(released).released).toMatchObject({ did: 'released' });
    expect(decided(released, 'did: replaced, what: battery').released).toBeNull();
    expect(decided(passedOn).passedOn).toMatchObject({ to: 'the dealer' });
    expect(decided(passedOn, 'did: received, what: vehicle').passedOn).toBeNull();
    expect(decided(passedOn, 'did: received, what: battery').passedOn).not.toBeNull();
  });

  it('is no release where that failed, and no passing on of the vehicle where a step was', () => {
    expect(decided(`${released}, result: failed`).released).toBeNull();
    expect(decided('did: passed-on, what: try-arm.LR, to: the dealer').passedOn).toBeNull();
  });

  it('is taken back by asking for it after all', () => {
    expect([...decided(declined).declined]).toEqual(['sensor.LR']);
    expect([...decided(declined, 'did: ordered, what: sensor.LR').declined]).toEqual([]);
    expect([...decided(declined, 'did: ordered, what: battery').declined]).toEqual(['sensor.LR']);
    expect([...decided(skipped).skipped.keys()]).toEqual(['try-arm.LR']);
    expect([...decided(skipped, 'did: tested, what: try-arm.LR, found: smooth').skipped.keys()]).toEqual([]);
  });
});
