import { describe, expect, it } from 'vitest';
import { fieldNames, fields } from '../../../src/input/fresh/fields.ts';
import { faultOf, understood } from '../../support/typing.ts';

const field = (name: string) => {
  const found = fields.find((one) => one.name === name);
  if (!found) throw new Error(`no field ${name}`);
  return found;
};

describe('what a fresh job file says', () => {
  it('has a field each, of which the vehicle and its layout must be said', () => {
    expect(fields.map(({ name }) => name)).toEqual([...fieldNames]);
    expect(fields.filter(({ required }) => required).map(({ name }) => name)).toEqual(['vehicle', 'layout']);
  });

  it('is asked for as far as somebody at the desk knows it', () => {
    expect(fields.filter(({ question }) => question !== null).map(({ name }) => name)).toEqual([
      'vehicle',
      'layout',
      'system',
      'battery',
      'charging',
      'complaint',
      'packs',
    ]);
  });

  it.each([
    ['vehicle', '  Shuttle \n 4 ', 'Shuttle 4'],
    ['layout', 'Four Corner Air', 'four-corner-air'],
    ['system', '24', '24 V'],
    ['system', '12v', '12 V'],
    ['battery', 'AGM', 'agm'],
    ['charging', 'fixed', 'fixed'],
    ['complaint', 'Low: at the rear #2 \u{1f642}', 'Low: at the rear #2 \u{1f642}'],
    ['packs', '[position-signals@1, handover]', 'position-signals@1,handover'],
    ['packs', 'position-signals@1 handover@1.0.0', 'position-signals@1,handover@1.0.0'],
    ['zone', ' Europe/Dublin ', 'Europe/Dublin'],
    ['sensor-signal', 'PWM', 'pwm'],
    ['distance', '148200', '148200 km'],
    ['distance', '92000mi', '92000 mi'],
  ])('%s %j is read as %j', (name, typed, read) => {
    expect(understood(field(name).read(typed))).toBe(read);
  });

  it.each([
    ['vehicle', ' ', 'nothing is written here'],
    ['vehicle', 'x'.repeat(121), 'this has 121 characters, and the limit is 120'],
    ['vehicle', 'Shuttle\u001b[31m 4', 'it holds the invisible character U+001B'],
    ['title', 'x'.repeat(201), 'this has 201 characters, and the limit is 200'],
    ['complaint', 'x'.repeat(4001), 'this has 4001 characters, and the limit is 4000'],
    ['layout', 'fourcorner', '"fourcorner" is not a layout'],
    ['layout', '', 'nothing is typed here'],
    ['system', '48', '"48 V" is not a supply system'],
    ['battery', 'lead', '"lead" is not a kind of battery'],
    ['packs', 'handover@1, 1st!', '"1st!" does not name a pack'],
    ['packs', ' , ', 'no pack is named'],
    ['zone', 'Dublin', '"Dublin" is not a time zone'],
    ['distance', '12V', 'V measures voltage, and a length is wanted here'],
  ])('%s %j is refused: %s', (name, typed, message) => {
    expect(faultOf(field(name).read(typed)).message).toBe(message);
  });
});
