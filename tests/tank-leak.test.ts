import { beforeAll, describe, expect, it } from 'vitest';
import { assess } from '../src/core/assess.ts';
import type { Pack } from '../src/core/pack.ts';
import { preparePacks } from '../src/core/prepare/prepared-packs.ts';
import { gatherEvidence } from '../src/core/suspects/evidence/evidence.ts';
import { points } from '../src/core/suspects/posterior.ts';
import { suspectModel } from '../src/core/suspects/suspect-model.ts';
import { newestPacks, openLibrary } from '../src/shell/library.ts';
import { instant, jobOf } from './support/judge.ts';
import { projectRoot } from './support/run.ts';

let packs: readonly Pack[] = [];
beforeAll(async () => {
  packs = await newestPacks(openLibrary([`${projectRoot}/rules`]));
});

/** What pressures of a closed tank, half an hour apart, say of a suspect against the battery, in points. */
const speaking = (pressures: readonly string[]) => {
  const snapshots = pressures.map((psi, index) => {
    const time = `${8 + Math.floor(index / 2)}`.padStart(2, '0') + (index % 2 === 0 ? ':00' : ':30');
    return `  - {id: "t${index}", at: "2026-03-02T${time}:00", state: rest, conditions: {air-system: closed, air: 12 °C}, readings: {tank: ${psi} psi}}`;
  });
  const job = jobOf(`snapshots:\n${snapshots.join('\n')}\n`, packs);
  const { findings } = assess(job, preparePacks(packs, []), instant('2026-03-02T20:00'));
  const model = suspectModel(packs, job.vehicle);
  const row = gatherEvidence(job, model, findings).pieces.find(({ id }) => id === 'leak-down');
  const under = (id: string): number =>
    row?.row[model.variants.findIndex((one) => one.id === id)] ?? Number.NaN;
  return (suspect: string): number => points(under(suspect), under('battery'));
};

const leaking = ['tank', 'air-line.LR', 'air-spring.RR', 'valve-block'];

describe('a closed tank', () => {
  it.each(leaking)('at 95.0, 91.4 and 86.8 psi speaks for a leak: %s', (suspect) => {
    expect(speaking(['95.0', '91.4', '86.8'])(suspect)).toBeGreaterThan(1);
  });

  it.each(leaking)('that holds 95 psi speaks against one: %s', (suspect) => {
    expect(speaking(['95.0', '95.1', '94.9', '95.0', '95.0', '95.1', '95.0', '94.9'])(suspect)).toBeLessThan(
      0,
    );
  });

  it('that falls faster speaks louder', () => {
    expect(speaking(['95.0', '85.0', '75.2', '65.1'])('tank')).toBeGreaterThan(
      speaking(['95.0', '91.4', '86.8'])('tank'),
    );
  });
});
