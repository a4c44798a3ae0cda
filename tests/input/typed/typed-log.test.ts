import { describe, expect, it } from 'vitest';
import { verbs } from '../../../src/core/job.ts';
import { braces, text } from '../../../src/input/edit/value.ts';
import { verbMeant } from '../../../src/input/typed/other-verbs.ts';
import { needsWhat, typedVerb, typedWhat, usualWhat } from '../../../src/input/typed/typed-log.ts';
import { faultOf, typingPack, understood, writtenJob } from '../../support/typing.ts';

const what = (typed: string, did: (typeof verbs)[number] = 'replaced'): string =>
  understood(typedWhat(typed, did, [typingPack]));
const fault = (typed: string, did: (typeof verbs)[number] = 'replaced') =>
  faultOf(typedWhat(typed, did, [typingPack]));

describe('what was done', () => {
  it.each([
    ['replaced', 'replaced'],
    ['REPLACED', 'replaced'],
    [' drove ', 'drove'],
  ])('%j is %s', (typed, verb) => {
    expect(understood(typedVerb(typed))).toBe(verb);
  });

  it('is offered where it was misspelt, and told where it is far off', () => {
    expect(faultOf(typedVerb('replacd'))).toMatchObject({
      message: '"replacd" is not something that a log can say',
      hint: 'did you mean replaced?',
    });
    expect(faultOf(typedVerb('xyzzy')).hint).toBe(`it can be ${verbs.join(', ')}`);
  });

  it.each([
    ['learned', 'did you mean calibrated ride-height?'],
    ['Fixed', 'did you mean repaired?'],
    ['swapped', 'did you mean replaced?'],
    ['unplugged', 'did you mean disconnected?'],
    ['measured', 'did you mean tested?'],
  ])('%s is answered with the word of the log', (typed, hint) => {
    expect(faultOf(typedVerb(typed)).hint).toBe(hint);
  });

  it('has a word of the log for each other word that it knows', () => {
    for (const other of ['learned', 'erased', 'coded', 'aligned', 'pumped', 'done', 'bought', 'note']) {
      const [verb = '', ...what] = verbMeant(other)?.split(' ') ?? [];
      expect(verbs).toContain(verb);
      if (what.length > 0)
        expect(understood(typedWhat(what.join(' '), 'calibrated', [typingPack]))).toBe('ride-height');
    }
    for (const verb of verbs) expect(verbMeant(verb)).toBeNull();
  });
});

describe('what it was done to', () => {
  it.each([
    ['sensor.LR', 'sensor.LR'],
    ['sensor.rl', 'sensor.LR'],
    ['SENSOR.FL', 'sensor.LF'],
    ['Control-Module', 'control-module'],
    ['height-learn', 'height-learn'],
    ['bench/height-learn', 'bench/height-learn'],
    ['codes', 'codes'],
    ['Ride-Height', 'ride-height'],
    ['road-test', 'road-test'],
    ['vehicle', 'vehicle'],
    ['readings/running', 'readings/running'],
  ])('%s is %s', (typed, meant) => {
    expect(what(typed)).toBe(meant);
  });

  it.each([
    ['sensro.LR', `nothing in this job's packs is called "sensro.LR"`, 'did you mean sensor.LR?'],
    [
      'sensor',
      'the log must say which sensor was replaced',
      'write sensor.LF, sensor.RF, sensor.LR, sensor.RR',
    ],
    [
      'exhaust',
      `nothing in this job's packs is called "exhaust"`,
      'name a component such as sensor.LR, a step, codes, ride-height or road-test',
    ],
  ])('%s is refused with what to write', (typed, message, hint) => {
    expect(fault(typed)).toMatchObject({ message, hint });
  });

  it.each([
    ['spring', 'replaced', ['air-spring.LF', 'air-spring.RF', 'air-spring.LR', 'air-spring.RR']],
    ['spring LR', 'replaced', ['air-spring.LR']],
    ['spring.rl', 'repaired', ['air-spring.LR']],
    ['left rear air spring', 'inspected', ['air-spring.LR']],
    ['module', 'programmed', ['control-module']],
    ['position sens FR', 'replaced', ['sensor.RF']],
    ['learn', 'completed', ['height-learn']],
    ['height', 'skipped', ['height-learn']],
  ] as const)('"%s" that was %s is offered by the words of its title', (typed, did, names) => {
    const { hint, choices } = fault(typed, did);
    expect(choices?.map(({ name }) => name)).toEqual(names);
    expect(hint).toBe(`did you mean ${names.join(', ')}?`);
  });

  it.each([
    ['the', 'replaced'],
    ['LR', 'replaced'],
    ['roof rack', 'replaced'],
    ['spring', 'completed'],
  ] as const)('"%s" that was %s is like nothing', (typed, did) => {
    expect(fault(typed, did).choices).toBeUndefined();
  });

  it('of a corner is asked for, with the corners to choose from', () => {
    expect(fault('sensor').choices).toEqual(
      ['LF', 'RF', 'LR', 'RR'].map((corner) => ({ name: `sensor.${corner}`, title: 'position sensor' })),
    );
  });

  it('that was inspected and is misspelt is no evidence, so it is not taken as it stands', () => {
    expect(fault('compresor', 'inspected').hint).toBe('did you mean compressor?');
    expect(what('the roof rack', 'inspected')).toBe('the roof rack');
  });

  it('may be anything for a note, a wait and the like', () => {
    expect(what('the roof rack', 'noted')).toBe('the roof rack');
    expect(what('sensor', 'waiting')).toBe('sensor');
    expect(what('sensor.fl', 'inspected')).toBe('sensor.LF');
  });

  it('is needed by work and never by a note', () => {
    expect(needsWhat).toEqual(expect.arrayContaining(['replaced', 'tested', 'completed']));
    expect(needsWhat).not.toContain('noted');
    expect(usualWhat).toEqual({
      cleared: 'codes',
      drove: 'road-test',
      'passed-on': 'vehicle',
      released: 'vehicle',
    });
  });

  it.each(verbs)('of "%s" that is accepted is accepted by a file, too', (did) => {
    const words = ['sensor.LR', 'Sensor.fl', 'battery', 'height-learn', 'codes', 'the roof rack', '200'];
    const accepted = words.filter((word) => typedWhat(word, did, [typingPack]).ok);
    // Only a test or a step can be skipped.
    expect(accepted.length).toBeGreaterThanOrEqual(did === 'skipped' ? 1 : 5);
    for (const word of accepted) {
      const entry = braces([
        ['at', text('2026-03-02T10:30')],
        ['did', text(did)],
        ['what', text(what(word, did))],
        ['to', text('the body shop')],
        ['reason', text('no gauge here')],
      ]);
      expect(writtenJob('log', entry).job.log).toMatchObject([{ did, what: what(word, did) }]);
    }
  });
});
