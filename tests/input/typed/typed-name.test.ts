import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { namesOf, typedName } from '../../../src/input/typed/typed-name.ts';
import { keyOfName } from '../../../src/input/typed/typed-snapshot.ts';
import { channels, faultOf, understood } from '../../support/typing.ts';

const key = (typed: string): string => keyOfName(understood(typedName(typed, channels)));
const fault = (typed: string) => faultOf(typedName(typed, channels));

describe('a name before the equals sign', () => {
  it.each([
    ['supply', 'supply'],
    ['SUPPLY', 'supply'],
    [' supply ', 'supply'],
    ['LF', 'position.LF'],
    ['fl', 'position.LF'],
    ['FR', 'position.RF'],
    ['RL', 'position.LR'],
    ['rr', 'position.RR'],
    ['left-rear', 'position.LR'],
    ['position.fl', 'position.LF'],
    ['Spring.RL', 'spring.LR'],
    ['reference', 'reference'],
    ['reference.LF', 'reference.LF'],
    ['floor', 'floor'],
    ['Heavy-Load', 'heavy-load'],
    ['AIR', 'air'],
    ['rested', 'rested'],
    ['lamp', 'lamp'],
    ['code', 'codes'],
    ['Codes', 'codes'],
    ['sup', 'supply'],
    ['bat', 'battery'],
    ['battery-t', 'battery-temperature'],
    ['REF', 'reference'],
    ['ref.fl', 'reference.LF'],
    ['lev', 'levelling'],
  ])('%s means %s', (typed, meant) => {
    expect(key(typed)).toBe(meant);
  });

  it.each([
    ['ba', 'nothing is called "ba"', 'a corner is LF, RF, LR, RR'],
    ['batery', 'nothing is called "batery"', 'did you mean battery?'],
    ['LX', 'nothing is called "LX"', 'a corner is LF, RF, LR, RR'],
    ['position', '"position" is read at each corner, and none is named', 'write LF, RF, LR, RR'],
    [
      'spring',
      '"spring" is read at each corner, and none is named',
      'write spring.LF, spring.RF, spring.LR, spring.RR',
    ],
    ['tank.LF', '"tank" is read once for the vehicle, not at corners', 'write tank=…'],
    ['spring.XX', '"XX" is not a corner', 'it can be LF, RF, LR, RR'],
    ['spring.', '"" is not a corner', 'it can be LF, RF, LR, RR'],
    ['.LF', 'nothing is called ".LF"', 'did you mean LF?'],
    ['', 'nothing is called ""', "name a channel of the job's packs, a corner, a condition, lamp or code"],
    [
      '__proto__',
      'nothing is called "__proto__"',
      "name a channel of the job's packs, a corner, a condition, lamp or code",
    ],
    [
      'toString',
      'nothing is called "toString"',
      "name a channel of the job's packs, a corner, a condition, lamp or code",
    ],
  ])('%j is refused with what to write', (typed, message, hint) => {
    expect(fault(typed)).toMatchObject({ message, hint });
  });

  it('is not guessed by a beginning that two names have', () => {
    const supply = understood(typedName('supply', channels));
    if (supply.kind !== 'reading') throw new Error('supply is no channel');
    const more = new Map([...channels, ['supplement', { ...supply.channel, id: 'supplement' }]]);
    expect(faultOf(typedName('suppl', more)).hint).toBe('did you mean supply?');
    expect(understood(typedName('supply', more))).toMatchObject({ key: 'supply' });
  });

  it('a corner alone means nothing where no pack reads positions', () => {
    const others = new Map([...channels].filter(([id]) => id !== 'position'));
    expect(faultOf(typedName('LF', others)).message).toBe('nothing is called "LF"');
  });

  it('that is offered is understood in any case', () => {
    const names = namesOf(channels);
    expect(names).toContain('reference');
    expect(names).toContain('reference.LF');
    expect(names).toContain('LF');
    expect(names).not.toContain('position');
    fc.assert(
      fc.property(fc.constantFrom(...names), fc.boolean(), (name, upper) => {
        expect(key(upper ? name.toUpperCase() : name.toLowerCase())).toBe(key(name));
      }),
    );
  });
});
