import { describe, expect, it } from 'vitest';
import { fieldNames, fields } from '../../../src/input/fresh/fields.ts';
import { faultOf, typingPack, understood } from '../../support/typing.ts';

const context = { components: typingPack.components };

const field = (name: string) => {
  const found = fields.find((one) => one.name === name);
  if (!found) throw new Error(`no field ${name}`);
  return found;
};

describe('what a fresh job file says', () => {
  it('has a field each, of which the vehicle alone must be said', () => {
    expect(fields.map(({ name }) => name)).toEqual([...fieldNames]);
    expect(fields.filter(({ required }) => required).map(({ name }) => name)).toEqual(['vehicle']);
  });

  it('is asked for as a technician knows it: what the driver says before what stands on labels', () => {
    expect(fields.filter(({ question }) => question !== null).map(({ name }) => name)).toEqual([
      'vehicle',
      'complaint',
      'symptoms',
      'recent-work',
      'layout',
      'battery',
      'charging',
      'sensor-sense',
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
    ['symptoms', 'low rl, after-standing', 'LR low after-standing'],
    ['recent-work', 'Sensor.fl; front,battery', 'sensor.LF, front, battery'],
    ['sensor-sense', 'Left Rising', 'left-rising'],
    ['sensor-signal', 'PWM', 'pwm'],
    ['distance', '148200', '148200 km'],
    ['distance', '92000mi', '92000 mi'],
  ])('%s %j is read as %j', (name, typed, read) => {
    expect(understood(field(name).read(typed, context))).toBe(read);
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
    ['symptoms', 'LR lwo', '"lwo" is no word for what the driver says'],
    ['symptoms', 'LR RR', 'LR and RR say the same thing twice'],
    ['recent-work', 'spring', 'nothing in this job\'s packs is called "spring"'],
    ['sensor-sense', 'both', '"both" is not a sense of the sensors'],
    ['distance', '12V', 'V measures voltage, and a length is wanted here'],
  ])('%s %j is refused: %s', (name, typed, message) => {
    expect(faultOf(field(name).read(typed, context)).message).toBe(message);
  });
});
