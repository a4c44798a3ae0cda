import { describe, expect, it } from 'vitest';
import { isEmptyList, typedCode } from '../../../src/input/typed/typed-code.ts';
import { faultOf, understood } from '../../support/typing.ts';

describe('a trouble code as typed', () => {
  it.each([
    ['C1A21', 'C1A21 stored'],
    ['c1a21', 'C1A21 stored'],
    ['C1A21:present', 'C1A21 present'],
    ['C1A21:stored:signal-range', 'C1A21 stored signal-range'],
    ['C1A21:signal-range:pending', 'C1A21 pending signal-range'],
    ['C1A21 History OTHER', 'C1A21 history other'],
    ['C1A40-54:0x28', 'C1A40-54 0x28'],
    ['C1A40:40', 'C1A40 40'],
    ['0x5a21', '0x5A21 stored'],
    [' C1A21: ', 'C1A21 stored'],
    ['C1A21:lr', 'C1A21 stored at LR'],
    ['C1A21:present:at=tank:in=other', 'C1A21 present at tank in other'],
    ['C1A21:test:supply', 'C1A21 stored set-by test at supply'],
    ['C1A21:set-by=test', 'C1A21 stored set-by test'],
  ])('%s is understood as %s', (typed, said) => {
    expect(understood(typedCode(typed)).echo).toBe(said);
  });

  it.each([
    ['C9', '"C9" is not a trouble code'],
    ['', 'nothing is typed here'],
    ['plug seized', '"plug" is not a trouble code'],
    ['C4A21', '"C4A21" is not a trouble code'],
    ['C1A21:stord', '"stord" is neither a status nor a meaning'],
    ['C1A21:in=tank', '"in=tank" is neither a status nor a meaning'],
    ['C1A21:suspension', '"suspension" is neither a status nor a meaning'],
    ['C1A21:0x1FF', '"0x1FF" is neither a status nor a meaning'],
    ['C1A21:\u001b[31m', '"\u001b[31m" is neither a status nor a meaning'],
  ])('%j is refused: %s', (typed, message) => {
    expect(faultOf(typedCode(typed)).message).toBe(message);
  });

  it('offers the nearest word, or says what there is', () => {
    expect(faultOf(typedCode('C1A21:stord')).hint).toBe('did you mean stored?');
    expect(faultOf(typedCode('C1A21:xyzzy')).hint).toContain('a status is present, pending, stored, history');
  });

  it.each(['none', 'NONE', '-', 'no', 'empty', '[]', ' none '])('%j is a list that held nothing', (typed) => {
    expect(isEmptyList(typed)).toBe(true);
  });

  it.each(['', 'nothing', 'C1A21'])('%j is no such list', (typed) => {
    expect(isEmptyList(typed)).toBe(false);
  });
});
