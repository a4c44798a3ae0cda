import { describe, expect, it } from 'vitest';
import type { Job } from '../../../src/core/job.ts';
import { preparePacks } from '../../../src/core/prepare/prepared-packs.ts';
import { openJob, readJob } from '../../../src/input/job/read-job.ts';
import { packOf } from '../../support/judge.ts';

const pack = packOf(`checks: []
steps:
  - {id: road-check, title: Road check, minutes: 5}
tests:
  - {id: arm-by-hand, per: corner, title: Arm by hand, minutes: 6, outcomes: [{id: smooth, title: it moves smoothly}, {id: sticks, title: it sticks}]}
  - {id: arm-angles, per: axle, title: Arm angles, minutes: 6, outcomes: [{id: alike, title: alike}, {id: differ, title: they differ}]}
  - {id: second-meter, title: Second meter, minutes: 3, outcomes: [{id: agrees, title: it agrees}, {id: differs, title: it differs}]}`);

const packs = [
  {
    ...pack,
    components: [
      ...pack.components,
      { id: 'plugs', per: 'axle', perCorner: false, title: 'sensor plugs' } as const,
      { id: 'shared-ground', per: 'both', perCorner: false, title: 'sensor ground' } as const,
    ],
  },
];

const read = (
  body: string,
  vehicle = '{name: Shuttle 7, layout: four-corner-air}',
): { readonly job: Job | null; readonly said: readonly string[]; readonly warnings: readonly string[] } => {
  const text = `worksheet: 1
job: S07-0001
title: Job of a test
opened: 2026-03-02T08:00
zone: Europe/Dublin
status: open
vehicle: ${vehicle}
${body}
`;
  const context = {
    prepared: preparePacks(packs),
    shop: null,
    elsewhere: new Map<string, string>(),
    sameDefinition: () => true,
  };
  const { job, problems, warnings } = readJob(openJob(text), context);
  return {
    job,
    said: problems.map(({ code, message, hint }) => `${code} | ${message} | ${hint}`),
    warnings: warnings.map(({ kind }) => kind),
  };
};

const entry = (rest: string): ReturnType<typeof read> => read(`log:\n  - {at: 2026-03-02T09:00, ${rest}}`);

const shot = (rest: string): ReturnType<typeof read> =>
  read(`snapshots:\n  - {id: a, at: 2026-03-02T09:00, state: key-on, ${rest}}`);

const nothingSaid = {
  where: null,
  sits: null,
  when: null,
  moves: null,
  rides: null,
  noise: null,
  checked: null,
};

describe('symptoms', () => {
  it('are one map or a list of them, with null for what is not said', () => {
    const low = { ...nothingSaid, where: 'LR', sits: 'low', checked: 'yes' };
    expect(read('symptoms: {where: LR, sits: low, checked: yes}').job?.symptoms).toEqual([low]);
    expect(read('symptoms: [{where: LR, sits: low, checked: yes}, {noise: hiss}]').job?.symptoms).toEqual([
      low,
      { ...nothingSaid, noise: 'hiss' },
    ]);
    expect(read('').job?.symptoms).toEqual([]);
  });

  it.each([
    ['symptoms: {checked: true}', 'wrong-value | "checked" is said in a word | write yes'],
    ['symptoms: {where: frnt}', 'wrong-value | "where" cannot be "frnt" | did you mean front?'],
    ['symptoms: {nose: hiss}', 'unknown-key | unknown key "nose" under "symptoms" | did you mean noise?'],
  ])('%s is refused', (body, said) => {
    expect(read(body).said).toEqual([said]);
  });
});

describe('recent work', () => {
  it('names components at their places, and areas', () => {
    expect(
      read('recent-work: [sensor.RR, front, LR, left, harness, battery, plugs.rear, shared-ground]').job
        ?.recentWork,
    ).toEqual(['sensor.RR', 'front', 'LR', 'left', 'harness', 'battery', 'plugs.rear', 'shared-ground']);
  });

  it('at no place is at each', () => {
    expect(read('recent-work: [plugs, plugs.front]').job?.recentWork).toEqual(['plugs.front', 'plugs.rear']);
  });

  it.each([
    ['sensors.RR', /^unknown-name \| "sensors\.RR" is neither .* \| /u],
    ['senso', /did you mean sensor\?$/u],
    ['sensor.XX', /^unknown-corner \| "XX" is not a corner/u],
    ['battery.LF', /^unknown-corner \| there is no .* at LF \| write battery$/u],
    ['plugs.LF', /write plugs\.front, plugs\.rear$/u],
  ])('of %s is refused', (name, said) => {
    const found = read(`recent-work: [${name}]`).said;
    expect(found).toHaveLength(1);
    expect(found[0]).toMatch(said);
  });
});

describe('the vehicle', () => {
  it('has the data of its plates', () => {
    const air = '{rated-pressure: 16 bar, tank-volume: 5 l, rated-current: 25 A, shared-with-brakes: yes}';
    const { job } = read('', `{name: Bus 3, layout: rear-air-assist, tank: not-fitted, air: ${air}}`);
    expect(job?.vehicle.tankFitted).toBe(false);
    expect(job?.vehicle.air).toMatchObject({ tankVolume: 5, ratedCurrent: 25, sharedWithBrakes: true });
    expect(job?.vehicle.air.ratedPressure).toBeCloseTo(232.06, 2);
  });

  it('has none where nobody read them', () => {
    const { job } = read('');
    expect(job?.vehicle.tankFitted).toBe(true);
    expect(job?.vehicle.air).toEqual({
      ratedPressure: null,
      tankVolume: null,
      ratedCurrent: null,
      sharedWithBrakes: false,
    });
  });

  it('has no plate that says nothing', () => {
    expect(read('', '{name: Bus 3, layout: four-corner-air, air: {tank-volume: 0 l}}').said).toEqual([
      'wrong-value | "0 l" is not above zero | write it as the plate says it',
    ]);
  });
});

describe('a snapshot', () => {
  it('may say its mode, whether it is on its stops, and how long all slept', () => {
    const { job } = shot('conditions: {mode: transport, on-stops: no, asleep: 40 min}, lamp: not-fitted');
    const [snapshot] = job?.snapshots ?? [];
    expect(snapshot?.conditions.words).toMatchObject({ mode: 'transport', 'on-stops': 'no' });
    expect(snapshot?.conditions.asleep?.value).toBeCloseTo(2 / 3, 9);
    expect(snapshot?.lamp).toBe('not-fitted');
  });

  it('does not guess whether it slept minutes or hours', () => {
    expect(shot('conditions: {asleep: 40}').said).toEqual([
      'unknown-unit | "40" may be minutes or hours | write 40 min or 40 h',
    ]);
  });

  it('has codes with the place that their text names, who stores them, and what set them', () => {
    const { job } = shot('codes: [{code: C3A21, at: LR, in: other, set-by: test}, {code: C3A22, at: tank}]');
    expect(job?.snapshots[0]?.codes).toMatchObject([
      { at: 'LR', storedIn: 'other', setBy: 'test' },
      { at: 'tank', storedIn: null, setBy: null },
    ]);
    expect(shot('codes: [{code: C3A21, at: pump}]').said[0]).toMatch(/^wrong-value/u);
  });

  it('keeps where both leads were', () => {
    const { job } = shot(
      'readings: {supply: {value: 0.3 V, at: {from: fuse 12, to: pin 30}}, battery: 12.4 V}',
    );
    expect(job?.snapshots[0]?.readings.get('supply')).toMatchObject({
      kind: 'values',
      leads: { from: 'fuse 12', to: 'pin 30' },
    });
    expect(job?.snapshots[0]?.readings.get('battery')).not.toHaveProperty('leads');
  });

  it.each([
    ['tank: {value: 96 psi, at: {from: a, to: b}}', 'bad-reading | tank is not read between two leads'],
    ['supply: {value: 0.3 V, at: {from: a}}', 'missing-key | missing required key "to" under "at"'],
    ['supply: {value: 0.3 V, at: {from: a, to: a}}', 'bad-reading | both leads are said to be at one place'],
  ])('%s is refused', (readings, said) => {
    const found = shot(`readings: {${readings}}`).said;
    expect(found).toHaveLength(1);
    expect(found[0]).toContain(said);
  });
});

describe('instruments', () => {
  const offsets = (text: string) =>
    Object.fromEntries(read(text).job?.instruments.map(({ name, offset }) => [name, offset]) ?? []);

  it('share one error in all that they read, but for the module and the tape', () => {
    expect(offsets('')).toMatchObject({
      meter: 'common',
      gauge: 'common',
      module: 'independent',
      tape: 'independent',
    });
    expect(offsets('instruments: {module: {offset: common}, clamp: {shows: 0.1 A}}')).toMatchObject({
      module: 'common',
      clamp: 'common',
    });
  });
});

describe('the log', () => {
  it('knows work, ends, and what is passed on or skipped', () => {
    expect(entry('did: charged, what: battery').said).toEqual([]);
    expect(entry('did: skipped, what: arm-by-hand, reason: seized').job?.log[0]?.reason).toBe('seized');
    expect(entry('did: passed-on, what: vehicle, to: the body shop, by: desk').job?.log).toMatchObject([
      { to: 'the body shop', by: 'desk' },
    ]);
    expect(entry('did: closed, result: towed, reason: unsafe, by: lead').job?.log).toMatchObject([
      { closing: 'towed', failed: false },
    ]);
    expect(entry('did: closed, result: repaired').said).toEqual([]);
    expect(entry('did: closed').job?.log[0]?.closing).toBeNull();
  });

  it.each([
    ['did: adjusted', 'missing-key | the log does not say what was adjusted'],
    ['did: skipped, what: second-meter', 'missing-key | the log does not say why it was skipped'],
    [
      'did: skipped, what: sensor.LR, reason: seized',
      'unknown-name | "sensor.LR" is neither a test nor a step',
    ],
    ['did: passed-on, what: vehicle', 'missing-key | the log does not say to whom it was passed on'],
    ['did: closed, result: scrapped', 'missing-key | a job that is closed as scrapped says why'],
    ['did: replaced, what: sensor.LR, result: repaired', 'wrong-value | "repaired" is how a job is closed'],
    ['did: replaced, what: plugs', 'unknown-corner | the log does not say which sensor plugs was replaced'],
    ['did: replaced, what: plugs.LF', 'unknown-corner | there is one sensor plugs an axle'],
    ['did: replaced, what: battery.front', 'unknown-corner | there is one'],
    ['did: replaced, what: sensor.front', 'unknown-corner | "front" is not a corner'],
    ['did: tested, what: arm-by-hand.LR, found: loose', 'unknown-name | arm-by-hand cannot find "loose"'],
  ])('%s is refused', (rest, said) => {
    const found = entry(rest).said;
    expect(found).toHaveLength(1);
    expect(found[0]).toContain(said);
  });

  it('takes a component of an axle, and one that is both whole and of an axle', () => {
    for (const what of ['plugs.rear', 'shared-ground', 'shared-ground.front']) {
      expect(entry(`did: repaired, what: ${what}`).job?.log[0]?.what).toBe(what);
    }
  });

  it('keeps a test that does not say where, and warns that it counts for no corner', () => {
    for (const [what, found] of [
      ['arm-by-hand', 'sticks'],
      ['arm-angles', 'differ'],
    ]) {
      const { job, warnings } = entry(`did: tested, what: ${what}, found: ${found}`);
      expect(job?.log).toMatchObject([{ what, found }]);
      expect(warnings).toEqual(['test-without-corner']);
    }
    expect(entry('did: tested, what: arm-angles.rear, found: alike').warnings).toEqual([]);
    expect(entry('did: tested, what: second-meter, found: agrees').warnings).toEqual([]);
  });

  it('refuses a test where the layout has nothing', () => {
    const rear = '{name: Bus 3, layout: rear-air-assist}';
    const tested = (what: string) =>
      read(`log: [{at: 2026-03-02T09:00, did: tested, what: ${what}}]`, rear).said;
    expect(tested('arm-by-hand.LF')).toEqual([
      'unknown-corner | a vehicle with rear-air-assist has nothing to test at LF | write arm-by-hand.LR, arm-by-hand.RR, or correct layout: and fitted:',
    ]);
    expect(tested('arm-angles.front')[0]).toContain('write arm-angles.rear,');
    expect(tested('arm-by-hand.LR')).toEqual([]);
  });

  it('keeps what an eye saw in other words, and warns that it is no evidence', () => {
    expect(entry('did: inspected, what: sensor.LR, found: fault-seen').warnings).toEqual([]);
    const { job, warnings } = entry('did: inspected, what: sensor.LR, found: bent');
    expect(job?.log[0]?.found).toBe('bent');
    expect(warnings).toEqual(['sight-in-words']);
  });
});
