import { describe, expect, it } from 'vitest';
import type { Equipment } from '../../../../src/core/job.ts';
import { evening, findingOf, judge, said, shopWith, stepOf } from '../../../support/judge.ts';

const pack = `checks:
  - {id: equipment, kind: equipment, title: Equipment, weight: hold, basis: {kind: common-practice}}
  - {id: codes, kind: stored-codes, title: Codes, basis: {kind: common-practice}, weights: {stored: hold}}
steps:
  - {id: program, title: Program the module, minutes: 30, needs: program, when: {did: replaced, what: control-module}, answered-by: [{did: programmed, what: control-module}]}
  - {id: learn, title: Ride-height learn, minutes: 15, needs: height-learn, when: {did: replaced, what: control-module}, after: [program]}`;
const replaced = 'log:\n  - {at: 2026-03-02T09:00, did: replaced, what: control-module}';
const tool = (does: string[]): Equipment => ({ name: 'workshop scan tool', does, access: null });
const sheetOf = (job: string, equipment: Equipment[] | null) =>
  judge(pack, job, evening, shopWith(equipment));
const lacking = (job: string, equipment: Equipment[] | null) =>
  sheetOf(job, equipment)
    .findings.filter(({ check }) => check === 'bench/equipment')
    .map(({ subject }) => subject);

describe('equipment', () => {
  it('names each capability that outstanding steps need and nothing has, with the steps', () => {
    const sheet = sheetOf(replaced, [tool(['read-codes', 'program'])]);
    const finding = findingOf(sheet, 'equipment', 'height-learn');
    expect(said(finding)).toBe('out hold');
    expect(finding.remarks).toEqual([{ kind: 'equipment', steps: ['Ride-height learn'] }]);
    expect(stepOf(sheet, 'learn')).toMatchObject({
      unequipped: true,
      state: 'waiting',
      waitsFor: ['bench/program', 'equipment/height-learn'],
    });
  });

  it('is silent where some equipment has it', () => {
    expect(lacking(replaced, [tool(['program']), tool(['height-learn'])])).toEqual([]);
  });

  it('is silent where no shop file names any equipment; an empty list is none at all', () => {
    expect(lacking(replaced, null)).toEqual([]);
    expect(lacking(replaced, [])).toEqual(['program', 'height-learn']);
  });

  it('asks nothing for steps that are not needed or are done', () => {
    expect(lacking('', [])).toEqual([]);
    expect(
      lacking(`${replaced}\n  - {at: 2026-03-02T10:00, did: programmed, what: control-module}`, []),
    ).toEqual(['height-learn']);
  });
});
