import { describe, expect, it } from 'vitest';
import { typedReading } from '../../../src/input/typed/typed-reading.ts';
import { channelOf, faultOf, instruments, understood } from '../../support/typing.ts';

const echo = (typed: string, channel = 'supply'): string =>
  understood(typedReading(typed, channelOf(channel), instruments)).echo;
const fault = (typed: string, channel = 'supply') =>
  faultOf(typedReading(typed, channelOf(channel), instruments));

describe('a reading as typed', () => {
  it.each([
    ['12.2', 'supply', '12.2 V'],
    ['12.2', 'battery', '12.20 V'],
    ['96psi', 'tank', '96 psi'],
    ['6.6bar', 'tank', '6.6 bar'],
    ['12.3@meter', 'supply', '12.30 V by meter'],
    ['12.3 @ METER', 'supply', '12.30 V by meter'],
    ['2.48/2.50/2.49', 'supply', '2.48 V, 2.50 V, 2.49 V, repeats'],
    ['2,48/2,5', 'battery', '2.48 V, 2.50 V, repeats'],
    ['2.48 / 2.50 V', 'supply', '2.48 V, 2.50 V, repeats'],
    ['2480/2500mV', 'supply', '2480 mV, 2500 mV, repeats'],
    ['0.9..2.6', 'supply', '0.9 V to 2.6 V, jumping'],
    ['2.6 .. 0.9!', 'supply', '0.9 V to 2.6 V, jumping'],
    ['0,9..2,6 V', 'battery', '0.90 V to 2.60 V, jumping'],
    ['900mV..2.6V', 'supply', '900 mV to 2.6 V, jumping'],
    ['-4..3@thermometer', 'battery-temperature', '-4 °C to 3 °C, jumping'],
    ['0.3V from fuse 12 to pin 30', 'supply', '0.3 V, from fuse 12 to pin 30'],
    ['0.3@meter from fuse 12 to pin 30', 'supply', '0.30 V by meter, from fuse 12 to pin 30'],
    ['0.1..0.3 from a to b', 'supply', '0.1 V to 0.3 V, jumping, from a to b'],
    ['plug seized', 'supply', 'not taken: plug seized'],
    ['gauge, broken', 'tank', 'not taken: gauge, broken'],
    ["plug: seized at 2 o'clock", 'supply', "not taken: plug: seized at 2 o'clock"],
    ['kaputt.', 'supply', 'not taken: kaputt.'],
    ['abgebrochen', 'supply', 'not taken: abgebrochen'],
  ])('%s of %s is understood as %s', (typed, channel, said) => {
    expect(echo(typed, channel)).toBe(said);
  });

  it.each([
    ['', 'nothing is typed here'],
    ['   ', 'nothing is typed here'],
    ['0.9..', 'this is half of a jumping signal'],
    ['2.4/2.5 from a to b', 'repeats are written without the places of the leads'],
    ['open', '"open" is not a reading'],
    ['..2.6', 'this is half of a jumping signal'],
    ['..', 'this is half of a jumping signal'],
    ['2.48/', 'a repeat is missing here'],
    ['/2.48', 'a repeat is missing here'],
    ['12.3@metre', 'no instrument is called "metre"'],
    ['12.3@', 'no instrument is named after the @'],
    ['2.4/2.5@meter', 'repeats are read with the usual instrument'],
    ['2.4/2.5psi', 'psi measures pressure, and a voltage is wanted here'],
    ['0.9..2.6psi', 'psi measures pressure, and a voltage is wanted here'],
    ['12psi', 'psi measures pressure, and a voltage is wanted here'],
    ['n/a', '"n/a" is not a reading'],
    ['-', '"-" is not a reading'],
    ['?', '"?" is not a reading'],
    ['no', '"no" is not a reading'],
    ['level', '"level" is not a reading'],
    ['Flashing', '"Flashing" is not a reading'],
    ['C1A21', '"C1A21" is not a reading'],
    ['abc..2.6', '"abc..2.6" is not a reading'],
    ['10.4 because of rain', '"because of rain" is not a known unit'],
  ])('%j is refused: %s', (typed, message) => {
    expect(fault(typed).message).toBe(message);
  });

  it('says that words may stand in place of a number where there is none', () => {
    expect(fault('n/a', 'tank').hint).toBe(
      'write a number, such as 2.48 psi, or words that say why there is none',
    );
    expect(fault('12.3@metre').hint).toBe('did you mean meter?');
  });

  it.each([
    ['plug gone\u001b[31m', 'it holds the invisible character U+001B'],
    ['plug \u202eseized', 'it holds the invisible character U+202E'],
    [`plug ${'x'.repeat(4000)}`, 'this has 4005 characters, and the limit is 4000'],
  ])('a reason that no file takes is refused before it is written', (typed, message) => {
    expect(fault(typed).message).toBe(message);
  });
});

describe('a reading far outside of anything possible', () => {
  it.each([
    [
      '12310',
      'supply',
      '12310 V',
      'did you mean 12.31 V or 12310 mV? Write 12310! to keep it; it is judged once it was read twice',
    ],
    [
      '248',
      'position',
      '248 V',
      'did you mean 2.48 V or 248 mV? Write 248! to keep it; it is judged once it was read twice',
    ],
    [
      '96 bar',
      'tank',
      '96 bar',
      'did you mean 9.6 bar or 96 psi? Write 96 bar! to keep it; it is judged once it was read twice',
    ],
    [
      '2.48/248',
      'position',
      '248 V',
      'did you mean 2.48 V or 248 mV? Write 2.48/248! to keep it; it is judged once it was read twice',
    ],
    [
      '0.9..260',
      'position',
      '260 V',
      'did you mean 2.6 V or 260 mV? Write 0.9..260! to keep it; it is judged once it was read twice',
    ],
  ])('%s of %s is doubted, with what was probably meant', (typed, channel, read, hint) => {
    const { message, hint: said, doubt } = fault(typed, channel);
    expect(message).toBe(`${read} is far outside of anything possible here`);
    expect(said).toBe(hint);
    expect(doubt?.read).toBe(read);
  });

  it.each([
    ['12..2', 'supply', 'did you mean 2..12 or 12.2? Write 12..2! to keep it'],
    ['2.6 .. 0.9', 'supply', 'did you mean 0.9..2.6? Write 2.6 .. 0.9! to keep it'],
    ['2.6 V..900 mV', 'position', 'did you mean 900 mV..2.6 V? Write 2.6 V..900 mV! to keep it'],
  ])('%s of %s is doubted, since it falls', (typed, channel, hint) => {
    const { message, hint: said, doubt } = fault(typed, channel);
    expect(message).toMatch(/^a jumping signal is typed from its low end to its high end/u);
    expect(said).toBe(hint);
    expect(doubt?.read).toBe(typed);
  });

  it.each([
    ['12310!', 'supply', '12310 V'],
    ['12310 !', 'supply', '12310 V'],
    ['2.48/248!', 'position', '2.48 V, 248 V, repeats'],
    ['0.9..260!', 'position', '0.9 V to 260 V, jumping'],
    ['12.2!', 'supply', '12.2 V'],
    ['gauge 2 missing, again!', 'tank', 'not taken: gauge 2 missing, again!'],
  ])('%s of %s is taken', (typed, channel, said) => {
    expect(echo(typed, channel)).toBe(said);
  });
});
