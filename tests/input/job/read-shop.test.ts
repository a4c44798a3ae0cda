import { describe, expect, it } from 'vitest';
import { usualTerms } from '../../../src/core/job.ts';
import { readShop } from '../../../src/input/job/read-shop.ts';
import { shopFaults } from '../problems-of.ts';

const sound = `rules: [rules, ../common]
packs: [bench@1]
zone: Europe/Dublin
units: {pressure: bar, temperature: °C}
labour-rate: 85 / h
currency: EUR
fail-on: look
order-hold: 200
tolerance: 10
downtime: 12
standing-authority: {by: fleet desk, up-to: 250}
equipment:
  - {name: bench laptop, does: [program], access: {amount: 38, per: vehicle, lasts: P1Y}}
`;

describe('readShop', () => {
  it('reads all of it, and where packs and folders are named', () => {
    const { shop, packRefs, ruleRefs } = readShop(sound, 'cornerwise.yaml');
    expect(shop).toMatchObject({
      rules: ['rules', '../common'],
      labourRate: 85,
      failOn: 'look',
      zone: 'Europe/Dublin',
      terms: { orderHold: 200, tolerance: 10, downtime: 12, standing: { by: 'fleet desk', upTo: 250 } },
      equipment: [{ access: { amount: 38, lasts: 'P1Y' } }],
    });
    expect(readShop('zone: Europe/Dublin', 'cornerwise.yaml').shop?.terms).toEqual(usualTerms);
    expect(packRefs).toEqual([{ ref: 'bench@1', at: sound.indexOf('bench@1') }]);
    expect(ruleRefs[1]).toEqual({ ref: '../common', at: sound.indexOf('../common') });
  });

  it.each([
    ['zone: Europe/Dublin', 'zone: Dublin', '3:7 unknown-zone | name one such as Europe/Dublin'],
    ['pressure: bar', 'pressure: barr', '4:19 wrong-value | did you mean bar?'],
    ['labour-rate: 85 / h', 'labour-rate: 85 EUR', '5:14 wrong-value | write it like 85 / h'],
    [
      'labour-rate: 85 / h',
      'labour-rate: 085',
      '5:14 leading-zero | write 85, or put it in quotes if it is a name',
    ],
    ['fail-on: look', 'fail-on: looks', '7:10 wrong-value | did you mean look?'],
    ['lasts: P1Y', 'lasts: a year', '13:85 bad-time | write it like P7D (seven days)'],
    ['amount: 38', 'amount: 38,50', '13:60 decimal-comma | write 38.50'],
    ['does: [program]', 'dose: [program]', '13:26 unknown-key | did you mean does?'],
    ['rules:', 'ruls:', '1:1 unknown-key | did you mean rules?'],
    ['rules: [rules, ../common]', 'rules: rules', '1:8 wrong-type | write a list, such as [a, b]'],
    ['zone: Europe/Dublin', 'zone: [', '3:7 yaml-syntax | close it with ] or }'],
  ])('%s → %s', (was, is, fault) => {
    expect(shopFaults(sound.replace(was, is))).toEqual([fault]);
  });

  it('bears its own name', () => {
    expect(readShop('zone: Dublin', 'up/cornerwise.yaml').problems[0]?.file).toBe('up/cornerwise.yaml');
  });
});
