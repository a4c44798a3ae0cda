import { describe, expect, it } from 'vitest';
import { judge, packProblems, stepOf } from '../../support/judge.ts';

const pack = `checks: []
steps:
  - {id: verify, title: Verify, minutes: 10}
  - {id: program, title: Program, minutes: 30, when: {did: replaced, what: control-module}, answered-by: [{did: programmed, what: control-module}], undone-by: [{did: replaced, what: control-module}]}
  - {id: learn, title: Learn, minutes: 15, when: {any: [{did: replaced, what: control-module}, {did: replaced, what: sensor}]}, after: [program], answered-by: [{did: calibrated, what: ride-height}], undone-by: [{did: programmed, what: control-module}, {did: replaced, what: sensor}]}
  - {id: clear, title: Clear and read, minutes: 5, answered-if: {code-list: after-clear, state: key-on}, undone-by: [{did: work}]}`;

const stepsOf = (job: string) => judge(pack, job).steps;
const log = (...entries: readonly (readonly [time: string, entry: string])[]): string =>
  `log:\n${entries.map(([time, entry]) => `  - {at: 2026-03-02T${time}, ${entry}}`).join('\n')}`;
const states = (job: string): Record<string, string> =>
  Object.fromEntries(stepsOf(job).map(({ id, state }) => [id.replace('bench/', ''), state]));

const replaced = ['09:00', 'did: replaced, what: control-module'] as const;
const sensor = ['09:00', 'did: replaced, what: sensor.LR'] as const;
const programmed = ['10:00', 'did: programmed, what: control-module'] as const;
const learned = ['11:00', 'did: calibrated, what: ride-height, result: passed'] as const;

describe('a step', () => {
  it('is needed on every job, or where its condition holds', () => {
    expect(states('')).toEqual({
      verify: 'ready',
      clear: 'ready',
      program: 'not-needed',
      learn: 'not-needed',
    });
    expect(states(log(sensor))).toMatchObject({ program: 'not-needed', learn: 'ready' });
    expect(states(log(replaced))).toMatchObject({ program: 'ready', learn: 'waiting' });
  });

  it('waits for those that come first, as long as they are needed and not done', () => {
    const sheet = judge(pack, log(replaced));
    expect(stepOf(sheet, 'learn').waitsFor).toEqual(['bench/program']);
    expect(states(log(replaced, programmed))).toMatchObject({ program: 'done', learn: 'ready' });
  });

  it('is done once it is answered, with the entry as the reason', () => {
    const sheet = judge(pack, log(sensor, learned));
    expect(stepOf(sheet, 'learn')).toMatchObject({
      state: 'done',
      waitsFor: [],
      because: [{ kind: 'logged', did: 'calibrated', what: 'ride-height' }],
    });
  });

  it.each(['verify', 'bench/verify'])('is answered by completed %s', (what) => {
    expect(states(log(['09:00', `did: completed, what: ${what}`]))).toMatchObject({ verify: 'done' });
  });

  it('is not answered by an entry that failed; the newest try counts', () => {
    const failed = ['11:30', 'did: calibrated, what: ride-height, result: failed'] as const;
    const again = ['12:00', 'did: calibrated, what: ride-height, result: passed'] as const;
    expect(states(log(sensor, failed))).toMatchObject({ learn: 'ready' });
    expect(states(log(sensor, learned, failed))).toMatchObject({ learn: 'ready' });
    expect(states(log(sensor, learned, failed, again))).toMatchObject({ learn: 'done' });
    const sheet = judge(pack, log(sensor, failed));
    expect(stepOf(sheet, 'learn').because.map(({ kind }) => kind)).toEqual(['logged', 'failed']);
  });

  it('is undone by later work that it names, with the reason', () => {
    const late = ['12:00', 'did: programmed, what: control-module'] as const;
    expect(states(log(sensor, learned, late))).toMatchObject({ learn: 'ready' });
    expect(stepOf(judge(pack, log(sensor, learned, late)), 'learn').because).toContainEqual(
      expect.objectContaining({ kind: 'undone', did: 'programmed', what: 'control-module' }),
    );
    expect(states(log(sensor, learned, ['12:00', 'did: replaced, what: compressor']))).toMatchObject({
      learn: 'done',
    });
  });

  it('is undone by work at any corner of a component that its pattern names', () => {
    expect(states(log(sensor, learned, ['12:00', 'did: replaced, what: sensor.RF']))).toMatchObject({
      learn: 'ready',
    });
  });

  it('is undone by failed work as well', () => {
    expect(
      states(log(sensor, learned, ['12:00', 'did: programmed, what: control-module, result: failed'])),
    ).toMatchObject({ learn: 'ready' });
  });

  it('of two entries at one time goes by the order in the file', () => {
    const same = ['11:00', 'did: replaced, what: sensor.LR'] as const;
    expect(states(log(sensor, learned, same))).toMatchObject({ learn: 'ready' });
    expect(states(log(sensor, same, learned))).toMatchObject({ learn: 'done' });
  });

  it('goes by time, not by the order in the file', () => {
    expect(states(log(learned, sensor))).toMatchObject({ learn: 'done' });
  });
});

describe('a step that readings answer', () => {
  const list = (time: string, state = 'key-on'): string =>
    `snapshots: [{id: a, at: 2026-03-02T${time}, state: ${state}, codes: []}]`;
  const cleared = ['10:00', 'did: cleared, what: codes'] as const;

  it.each([
    ['after the clear', '10:05', 'key-on', 'done'],
    ['before the clear', '09:55', 'key-on', 'ready'],
    ['in the very minute of the clear', '10:00', 'key-on', 'ready'],
    ['in another state', '10:05', 'running', 'ready'],
  ])('a code list %s: %s, %s', (_, time, state, expected) => {
    expect(states(`${list(time, state)}\n${log(cleared)}`)).toMatchObject({ clear: expected });
  });

  it('is not done without the clear, or where the clear failed', () => {
    expect(states(list('10:05'))).toMatchObject({ clear: 'ready' });
    expect(
      states(`${list('10:05')}\n${log(['10:00', 'did: cleared, what: codes, result: failed'])}`),
    ).toMatchObject({ clear: 'ready' });
  });

  it('is undone by work after the reading, and by work in its very minute', () => {
    const worked = (time: string) =>
      states(`${list('10:05')}\n${log(cleared, [time, 'did: replaced, what: sensor.LR'])}`).clear;
    expect(worked('10:30')).toBe('ready');
    expect(worked('10:05')).toBe('ready');
    expect(worked('09:30')).toBe('done');
  });

  it('is undone by a second clear, until the codes are read again', () => {
    expect(states(`${list('10:05')}\n${log(cleared, ['11:00', 'did: cleared, what: codes'])}`)).toMatchObject(
      { clear: 'ready' },
    );
  });
});

describe('a step that either answers', () => {
  const either = `checks: []
steps:
  - {id: look, title: Look, minutes: 5, answered-by: [{did: inspected, what: vehicle}], answered-if: {taken: key-on}, undone-by: [{did: work}]}`;
  const shot = 'snapshots: [{id: a, at: 2026-03-02T10:00, state: key-on, readings: {supply: 12.40 V}}]';
  const stateWith = (inspected: string, worked: string) =>
    stepOf(
      judge(
        either,
        `${shot}\n${log([inspected, 'did: inspected, what: vehicle'], [worked, 'did: replaced, what: sensor.LR'])}`,
      ),
      'look',
    ).state;

  it('goes by the newer evidence', () => {
    expect(stateWith('11:00', '10:30')).toBe('done');
    expect(stateWith('09:00', '09:30')).toBe('done');
    expect(stateWith('09:00', '10:30')).toBe('ready');
    expect(stateWith('11:00', '11:30')).toBe('ready');
  });
});

describe('waiting for somebody', () => {
  it.each(['verify', 'bench/verify'])('a step waits for whom the log names, said of %s', (what) => {
    const sheet = judge(pack, log(['09:00', `did: waiting, what: ${what}, for: parts counter`]));
    expect(stepOf(sheet, 'verify')).toMatchObject({ state: 'waiting', waitsFor: ['parts counter'] });
  });

  it('no longer once something else was logged of it', () => {
    const waited = ['09:00', 'did: waiting, what: verify, for: parts counter'] as const;
    expect(states(log(waited, ['10:00', 'did: noted, what: verify']))).toMatchObject({ verify: 'ready' });
    expect(states(log(waited, ['10:00', 'did: completed, what: verify']))).toMatchObject({ verify: 'done' });
  });
});

describe('cautions and points', () => {
  const careful = `checks: []
cautions: [{id: body-on-air, text: A body on air can drop.}]
steps: [{id: learn, title: Learn, minutes: 15, cautions: [body-on-air], points: [level floor]}]
hold-points: [{id: release, title: Release, clear-when: {step: learn}, cautions: [body-on-air]}]`;

  it('come with the step and the hold point as text', () => {
    const sheet = judge(careful, '');
    expect(stepOf(sheet, 'learn')).toMatchObject({
      cautions: ['A body on air can drop.'],
      points: ['level floor'],
    });
    expect(sheet.holdPoints[0]?.cautions).toEqual(['A body on air can drop.']);
  });

  it('a caution that the pack does not have is refused', () => {
    expect(
      packProblems(careful.replace('cautions: [body-on-air], points', 'cautions: [body-in-air], points')),
    ).toContain('unknown-name');
  });
});

describe('steps that cannot be', () => {
  it('a cycle is refused', () => {
    expect(
      packProblems(
        'checks: []\nsteps: [{id: a, title: A, minutes: 1, after: [b]}, {id: b, title: B, minutes: 1, after: [a]}]',
      ),
    ).toContain('step-cycle');
  });

  it('a step that hangs on whether another is done is refused', () => {
    expect(
      packProblems(
        'checks: []\nsteps: [{id: a, title: A, minutes: 1}, {id: b, title: B, minutes: 1, when: {step: a}}]',
      ),
    ).toContain('wrong-value');
  });
});
