import { describe, expect, it } from 'vitest';
import { evening, judge, keyOn } from '../../support/judge.ts';
import { benchChecks, benchEvidence, benchSuspects, signals } from '../suspects/bench-pack.ts';

const pack = `${benchChecks}${benchEvidence}${benchSuspects}
steps:
  - {id: programming, title: Program the module, when: {code-means: [not-programmed]}, answered-by: [{did: programmed, what: control-module}], minutes: 5}
`;

const nowOf = (readings: string, codes = '', more = '') =>
  judge(pack, `${keyOn(readings, `    codes: [${codes}]\n`)}${more}costs: {labour-rate: 60 / h}\n`, evening)
    .now;
const sound = `{${signals({})}, battery: 12.5 V, supply: 12.4 V, reference: 5 V, tank: 110 psi}`;

describe('what is still wrong', () => {
  it('is a code that no outstanding step answers, until it is accepted', () => {
    expect(nowOf(sound, '{code: C3001, status: stored}').kind).toBe('decide');
    const waived = 'waivers: [{finding: "bench/codes:C3001", reason: known, by: lead, until: 2026-04-01}]\n';
    expect(nowOf(sound, '{code: C3001, status: stored}', waived).kind).not.toBe('decide');
  });

  it('is not a code that asks for a step, before that step was done', () => {
    const asking = '{code: C3002, status: stored, means: not-programmed}';
    expect(nowOf(sound, asking)).toMatchObject({ kind: 'step', id: 'bench/programming' });
  });

  it('is not what speaks for a part whose repair was declined', () => {
    const low = sound.replace('LR: 2.50 V', 'LR: 0.50 V');
    const looked = ['sensor', 'wire'].map(
      (part, at) =>
        `{at: 2026-03-02T09:1${String(at)}, did: inspected, what: ${part}.LR, found: nothing-seen}`,
    );
    const tried = '{at: 2026-03-02T09:20, did: tested, what: try-arm.LR, found: stuck}';
    const no = '{at: 2026-03-02T09:30, did: declined, what: sensor.LR}';
    const log = (...entries: string[]): string => `log: [${entries.join(', ')}]\n`;
    expect(nowOf(low, '', log(...looked, tried)).kind).toBe('authorise');
    expect(nowOf(low, '', log(...looked, tried, no))).toMatchObject({ kind: 'hand-over' });
  });
});
