import { describe, expect, it } from 'vitest';
import type { Remark } from '../../../../src/core/finding.ts';
import { findingOf, judge, packProblems, said } from '../../../support/judge.ts';

const check = (more = '') =>
  `  - {id: leak, kind: leak-down, title: Leak-down, of: tank, in: [rest], basis: {kind: from-memory}, tiers: [{weight: look, at-most: 3 psi/h}, {weight: hold, at-most: 10 psi/h}]${more}}`;
const packOf = (more = '') => `checks:\n${check(more)}`;
const pack = packOf();

/** A snapshot at rest with the system closed, unless told otherwise. */
const shot = (
  time: string,
  reading: string,
  conditions = 'air-system: closed, air: 15.0 °C',
  state = 'rest',
): string =>
  `  - {id: "t${time.replaceAll(':', '')}", at: "2026-03-02T${time}", state: ${state}, conditions: {${conditions}}, readings: {${reading && `tank: ${reading}`}}}`;
const closed = 'air-system: closed';
const at = (air: string) => `${closed}, air: ${air} °C`;
const sheetOf = (shots: readonly string[], more = '', which = pack) =>
  judge(which, `snapshots:\n${shots.join('\n')}\n${more}`);
const leak = (...shots: string[]) => findingOf(sheetOf(shots), 'leak', 'tank');
const remarkOf = <K extends Remark['kind']>(finding: ReturnType<typeof leak>, kind: K) =>
  finding.remarks.find((one): one is Extract<Remark, { kind: K }> => one.kind === kind);

const steady = [shot('08:00:00', '120 psi'), shot('12:00:00', '120 psi'), shot('16:00:00', '120 psi')];

describe('leak-down', () => {
  it('is a loss an hour, positive where the pressure falls', () => {
    const finding = leak(
      shot('08:00:00', '120 psi'),
      shot('10:00:00', '108 psi'),
      shot('12:00:00', '96 psi'),
    );
    expect(finding.measured).toMatchObject({ value: expect.closeTo(6, 9), unit: 'psi/h' });
    expect(said(finding)).toBe('out look');
    expect(finding.snapshot).toBe('t120000');
    expect(finding.side).toBe('high');
  });

  it('holds where it falls fast, and is silent where it stands', () => {
    expect(
      said(leak(shot('08:00:00', '120 psi'), shot('09:00:00', '106 psi'), shot('10:00:00', '92 psi'))),
    ).toBe('out hold');
    expect(said(leak(...steady))).toBe('within look');
  });

  it('carries the digits of gauge and thermometer, and not the gauge’s fixed error', () => {
    const { measured } = leak(...steady);
    // Points 4 h apart: Σ(t − t̄)² = 32 h². A tenth of a degree at 134.7 psi absolute and 288.15 K.
    const digits = 1 / Math.sqrt(12);
    const degrees = ((120 + 14.695_949) / 288.15) * (0.1 / Math.sqrt(12));
    expect(measured?.value).toBeCloseTo(0, 9);
    expect(measured?.expanded).toBeCloseTo((2 * Math.hypot(digits, degrees)) / Math.sqrt(32), 6);
  });

  it('takes the points’ scatter with Student’s factor where that is the larger', () => {
    const { measured } = leak(
      shot('08:00:00', '120 psi'),
      shot('12:00:00', '111 psi'),
      shot('16:00:00', '120 psi'),
    );
    // Residuals 3, −6, 3: s² = 54/1 over Σ(t − t̄)² = 32.
    expect(measured?.value).toBeCloseTo(0, 9);
    // The factor for one degree of freedom, which tables print as 12.706.
    expect(measured?.expanded).toBeCloseTo(Math.tan(0.475 * Math.PI) * Math.sqrt(54 / 32), 6);
  });

  it('tells how probable a loss is by Student’s distribution, against every limit', () => {
    const finding = leak(
      shot('08:00:00', '95.0 psi'),
      shot('08:30:00', '91.4 psi'),
      shot('09:00:00', '86.8 psi'),
    );
    expect(finding.measured?.value).toBeCloseTo(8.2, 9);
    expect(finding.measured?.expanded.toFixed(1)).toBe('7.3');
    // What the thermometer adds is next to nothing.
    expect(finding.coverage).toBeCloseTo(12.706, 1);
    // Too close to its hold limit, and all the same hardly no leak: residuals −1/6, 1/3, −1/6 over Σ(t − t̄)² = 1/2.
    expect(said(finding)).toBe('too-close hold');
    const standard = Math.sqrt(1 / 6 / 0.5);
    const cauchy = (limit: number) => 0.5 + Math.atan((limit - 8.2) / standard) / Math.PI;
    expect(finding.tiers.map(({ weight, inside }) => [weight, inside])).toEqual([
      ['hold', expect.closeTo(cauchy(10), 3)],
      ['look', expect.closeTo(cauchy(3), 3)],
    ]);
    expect(finding.outside.low).toBe(0);
    expect(finding.outside.high).toBeCloseTo(1 - cauchy(3), 3);
    expect(finding.outside.high.toFixed(2)).toBe('0.96');
  });

  it('carries the scale error of the gauge with the usual factor', () => {
    const shots = [shot('08:00:00', '120 psi'), shot('10:00:00', '110 psi'), shot('12:00:00', '100 psi')];
    const expanded = (accuracy: string) =>
      findingOf(sheetOf(shots, `instruments: {gauge: {accuracy: ${accuracy}}}`), 'leak', 'tank').measured
        ?.expanded ?? 0;
    expect(expanded('10 % + 1 psi')).toBeCloseTo(Math.hypot(expanded('3 psi'), (2 * 0.5) / Math.sqrt(3)), 9);
  });

  it('does not let the fixed errors of two gauges cancel', () => {
    const shots = [
      shot('08:00:00', '120 psi'),
      shot('12:00:00', '120 psi'),
      shot('16:00:00', '{value: 120 psi, by: other}'),
    ];
    const finding = findingOf(sheetOf(shots, 'instruments: {other: {accuracy: 2 psi}}'), 'leak', 'tank');
    // The last point has 4/32 of the slope, each gauge its own half-width: 2 and 1 psi.
    const gauges = (Math.hypot(2, 1) / 8) * (2 / Math.sqrt(3));
    expect(finding.measured?.expanded).toBeGreaterThan(gauges);
    expect(finding.measured?.expanded).toBeLessThan(gauges * 1.1);
  });
});

describe('leak-down and the temperature', () => {
  /** 120 psi at 15 °C is 134.70 psi absolute; at 5 °C that is 130.02, 115.33 on the gauge. */
  const cooling = [
    shot('10:00:00', '120.0 psi', at('15.0')),
    shot('13:00:00', '117.7 psi', at('10.0')),
    shot('14:00:00', '116.9 psi', at('8.3')),
  ];

  it('a fall that the cooling explains is within, and says so', () => {
    const finding = leak(...cooling);
    expect(said(finding)).toBe('within look');
    expect(Math.abs(finding.measured?.value ?? 1)).toBeLessThan(0.05);
    expect(remarkOf(finding, 'cooling-explains')).toMatchObject({
      all: true,
      unit: 'psi',
      from: 15,
      to: 8.3,
      fall: expect.closeTo(3.1, 1),
      share: expect.closeTo(3.1, 1),
    });
  });

  it('a fall of which the cooling explains nine tenths is explained where the readings show no loss', () => {
    const finding = leak(
      shot('08:00:00', '120 psi', at('20.0')),
      shot('10:00:00', '117 psi', at('15.0')),
      shot('12:00:00', '115 psi', at('10.0')),
    );
    const remark = remarkOf(finding, 'cooling-explains');
    expect(remark).toMatchObject({ all: true, fall: expect.closeTo(5, 9) });
    expect(remark?.share).toBeGreaterThan(4.3);
    expect(remark?.share).toBeLessThan(4.7);
  });

  it('of a fall that it explains in part it says how much', () => {
    const finding = leak(
      shot('08:00:00', '120.0 psi', at('20.0')),
      shot('10:00:00', '107.7 psi', at('15.0')),
      shot('12:00:00', '95.4 psi', at('10.0')),
    );
    expect(said(finding)).toBe('out look');
    expect(remarkOf(finding, 'cooling-explains')).toMatchObject({
      all: false,
      fall: expect.closeTo(24.6, 9),
    });
    const { share = 0, fall = 0 } = remarkOf(finding, 'cooling-explains') ?? {};
    expect(fall - share).toBeCloseTo((finding.measured?.value ?? 0) * 4, 9);
    // 10 °C of 293 K on some 122 psi absolute on the way.
    expect(share).toBeGreaterThan(3.8);
    expect(share).toBeLessThan(4.6);
  });

  it('says nothing of a temperature that rose by less than a degree, and speaks of one that rose by more', () => {
    const rising = (last: string) =>
      leak(
        shot('08:00:00', '120.0 psi', at('15.0')),
        shot('10:00:00', '115.0 psi', at('15.2')),
        shot('12:00:00', '110.0 psi', at(last)),
      ).remarks.map(({ kind }) => kind);
    expect(rising('15.9')).toEqual([]);
    expect(rising('16.5')).toEqual(['temperature-allowed-for']);
  });

  it('does not call cooling the whole of a fall where the pressure left over rises for certain', () => {
    // At one temperature the pressure rises by some 2 psi over two hours, which steady readings show clearly.
    const finding = leak(
      shot('08:00:00', '120.00 psi', at('20.0')),
      shot('09:00:00', '118.65 psi', at('15.0')),
      shot('10:00:00', '117.30 psi', at('10.0')),
    );
    expect(finding.measured?.value).toBeLessThan(-0.5);
    expect(remarkOf(finding, 'cooling-explains')).toBeUndefined();
    expect(remarkOf(finding, 'temperature-allowed-for')).toMatchObject({ from: 20, to: 10 });
  });

  it('does not call a fall explained where the readings are only too poor to show the loss', () => {
    const finding = leak(
      shot('08:00:00', '120.0 psi', at('20.0')),
      shot('10:00:00', '104.0 psi', at('19.0')),
      shot('12:00:00', '110.0 psi', at('18.0')),
    );
    expect(said(finding)).toBe('too-close hold');
    expect(remarkOf(finding, 'cooling-explains')).toMatchObject({ all: false, fall: expect.closeTo(10, 9) });
  });

  it('only allows for a cooling that took more than the pressure fell', () => {
    const finding = leak(
      shot('08:00:00', '120.0 psi', at('20.0')),
      shot('10:00:00', '119.5 psi', at('10.0')),
      shot('12:00:00', '119.0 psi', at('0.0')),
    );
    expect(finding.measured?.value).toBeLessThan(-1.5);
    expect(finding.remarks).toEqual([
      {
        kind: 'temperature-allowed-for',
        // What stands at 0 °C would be as much higher at 20.
        share: expect.closeTo(((119 + 14.695_949) * 20) / 273.15, 1),
        unit: 'psi',
        from: 20,
        to: 0,
      },
    ]);
  });

  it('warming hides a loss, and is allowed for', () => {
    const finding = leak(
      shot('08:00:00', '120.0 psi', at('5.0')),
      shot('09:00:00', '117.5 psi', at('10.0')),
      shot('10:00:00', '115.0 psi', at('15.0')),
    );
    const { share = 0 } = remarkOf(finding, 'temperature-allowed-for') ?? {};
    expect(share).toBeLessThan(-4);
    expect(finding.measured?.value).toBeCloseTo(2.5 - share / 2, 9);
    expect(said(finding)).toBe('out look');
  });

  it('says nothing of a temperature that stood', () => {
    expect(leak(...steady).remarks).toEqual([]);
  });

  it('takes an air that is not stated at every reading as steady, and is less sure for it', () => {
    const shots = [
      shot('08:00:00', '120 psi', at('15.0')),
      shot('12:00:00', '114 psi', closed),
      shot('16:00:00', '108 psi', at('5.0')),
    ];
    const finding = leak(...shots);
    expect(finding.measured?.value).toBeCloseTo(1.5, 9);
    // 15 °C in 8 h, on a mean of 114 psi at 288.15 K.
    const rate = ((15 / 8) * (114 + 14.695_949)) / 288.15;
    expect(remarkOf(finding, 'air-taken-as-steady')).toEqual({
      kind: 'air-taken-as-steady',
      rate: expect.closeTo(rate, 6),
      unit: 'psi/h',
    });
    const digits = 1 / Math.sqrt(12) / Math.sqrt(32);
    const clock = (1.5 * (1 / 3600 / Math.sqrt(12))) / Math.sqrt(32);
    expect(finding.measured?.expanded).toBeCloseTo(2 * Math.hypot(digits, clock, rate / Math.sqrt(3)), 6);
    expect(said(finding)).toBe('within look');
  });

  it('asks for the air temperature where only that would settle it', () => {
    const finding = leak(
      shot('08:00:00', '120.0 psi', closed),
      shot('09:00:00', '117.5 psi', closed),
      shot('10:00:00', '115.0 psi', closed),
    );
    expect(said(finding)).toBe('too-close look');
    expect(finding.settle).toEqual({ how: 'state-air' });
  });

  it('counts the pressure around it: a barometer at each reading, else one for all', () => {
    const falling = (first: string, last: string) => [
      shot('08:00:00', '120.0 psi', `${at('15.0')}, ${first}`),
      shot('12:00:00', '120.0 psi', `${at('15.0')}, ${first}`),
      shot('16:00:00', '120.0 psi', `${at('15.0')}, ${last}`),
    ];
    // The gauge stands while the air around it loses 4 kPa: so does what is in the tank.
    const byWeather = leak(...falling('barometer: 102.0 kPa', 'barometer: 98.0 kPa'));
    expect(byWeather.measured?.value).toBeCloseTo(4 / 6.894_757 / 8, 6);
    const once = leak(...falling('floor: level', 'barometer: 84.0 kPa'));
    expect(once.measured?.value).toBeCloseTo(0, 9);
    const onceByAltitude = leak(...falling('altitude: 1500 m', 'floor: level'));
    expect(onceByAltitude.measured?.value).toBeCloseTo(0, 9);
  });

  it('corrects less where the air around is thinner', () => {
    const run = (more: string) =>
      leak(
        shot('08:00:00', '120.0 psi', `${at('25.0')}${more}`),
        shot('10:00:00', '120.0 psi', `${at('15.0')}${more}`),
        shot('12:00:00', '120.0 psi', `${at('5.0')}${more}`),
      ).measured?.value ?? 0;
    // 3000 m: 70.11 kPa. The correction goes with the absolute pressure.
    const share = (120 * 6.894_757 + 70.11) / (120 * 6.894_757 + 101.325);
    expect(run(', altitude: 3000 m') / run('')).toBeCloseTo(share, 4);
    expect(run(', altitude: 3000 m, barometer: 101.325 kPa')).toBeCloseTo(run(''), 6);
  });
});

describe('leak-down’s runs', () => {
  const why = (...shots: string[]) => leak(...shots).missing;

  it('want three points: two are not enough', () => {
    const [first = '', second = ''] = steady;
    const wants = { why: 'too-few-points', wants: 3, states: ['rest'], condition: 'air-system: closed' };
    expect(why(first)).toEqual({ ...wants, has: 1 });
    expect(why(first, second)).toEqual({ ...wants, has: 2 });
  });

  it('want more than one instant', () => {
    const thrice = ['a', 'b', 'c'].map((id) => shot('08:00:00', '120 psi').replace('t080000', id));
    expect(why(...thrice)).toMatchObject({ why: 'too-few-points', has: 3 });
  });

  it('want the system closed, and stated so', () => {
    expect(why(shot('08:00:00', '120 psi', 'air-system: open'))).toEqual({
      why: 'condition-differs',
      condition: 'air-system',
      wants: 'closed',
      is: 'open',
    });
    expect(why(shot('08:00:00', '120 psi', 'air: 5 °C'))).toMatchObject({
      why: 'condition-not-stated',
      condition: 'air-system',
    });
    expect(why(shot('08:00:00', ''))).toMatchObject({ why: 'no-reading', channels: ['tank'] });
    expect(why(shot('08:00:00', '120 psi', closed, 'key-on'))).toMatchObject({ why: 'no-snapshot' });
  });

  const [first = '', second = '', third = ''] = steady;

  it.each([
    ['a running engine', shot('13:00:00', '', 'air: 5 °C', 'running')],
    ['key-on that does not say that it stayed closed', shot('13:00:00', '', 'air: 5 °C', 'key-on')],
    ['an open system', shot('13:00:00', '', 'air-system: open')],
    ['the compressor', shot('13:00:00', '', 'air-system: closed, compressor: on')],
  ])('are parted by %s', (_what, between) => {
    expect(why(first, second, between, third)).toMatchObject({ why: 'too-few-points', has: 1 });
  });

  it.each([
    ['a rest at which nobody looked', shot('13:00:00', '', 'air: 5 °C')],
    ['a rest that says nothing of the system', shot('13:00:00', '90 psi', 'air: 5 °C')],
    ['key-on with the system closed', shot('13:00:00', '', closed, 'key-on')],
  ])('go on over %s', (_what, between) => {
    expect(said(leak(first, second, between, third))).toBe('within look');
  });

  it.each([
    ['replaced', 'what: compressor', '13:00', 'too-few-points'],
    ['replaced', 'what: compressor', '16:00', 'too-few-points'],
    ['drove', 'what: road-test', '13:00', 'too-few-points'],
    ['replaced', 'what: battery', '13:00', undefined],
    ['tested', 'what: compressor', '13:00', undefined],
    ['drove', 'what: road-test', '07:00', undefined],
  ])('over %s %s at %s', (did, what, time, reason) => {
    const log = `log: [{at: "2026-03-02T${time}", did: ${did}, ${what}}]`;
    const sheet = sheetOf(steady, log);
    expect(sheet.findings.map(({ missing }) => missing?.why)).toEqual([reason]);
  });

  it('leave out a point inside that could not be taken', () => {
    const refused = '{why: gauge fell off}';
    const judged = leak(first, shot('10:00:00', refused), second, third);
    expect(said(judged)).toBe('within look');
    expect(why(first, shot('10:00:00', refused), third)).toMatchObject({ why: 'could-not-be-taken' });
  });

  it('that are good lose the word to a newest point that could not be taken; bad ones keep it', () => {
    const judgedWith = (...points: string[]) =>
      sheetOf([...points, shot('18:00:00', '{why: gauge fell off}')]).findings.map(
        ({ verdict, newest, missing }) => [verdict, newest, missing?.why],
      );
    expect(judgedWith(...steady)).toEqual([
      ['within', false, undefined],
      ['not-taken', true, 'could-not-be-taken'],
    ]);
    const falling = ['120 psi', '80 psi', '40 psi'].map((psi, hour) => shot(`1${hour}:00:00`, psi));
    expect(judgedWith(...falling)).toEqual([['out', true, undefined]]);
    expect(judgedWith(first)).toEqual([['not-taken', true, 'could-not-be-taken']]);
  });

  it('are judged each, the newest as the current one', () => {
    const sheet = sheetOf([
      shot('01:00:00', '120 psi'),
      shot('02:00:00', '112 psi'),
      shot('03:00:00', '104 psi'),
      shot('07:00:00', '', 'air: 5 °C', 'running'),
      ...steady,
    ]);
    expect(sheet.findings.map(({ snapshot, verdict, current }) => [snapshot, verdict, current])).toEqual([
      ['t030000', 'out', false],
      ['t160000', 'within', true],
    ]);
  });
});

describe('leak-down’s time to lose a reserve', () => {
  const lost = (...shots: string[]) =>
    remarkOf(findingOf(sheetOf(shots, '', packOf(', reserve: 20 psi')), 'leak', 'tank'), 'time-to-lose');

  it('is the reserve over the rate', () => {
    expect(
      lost(shot('08:00:00', '120 psi'), shot('10:00:00', '110 psi'), shot('12:00:00', '100 psi')),
    ).toEqual({
      kind: 'time-to-lose',
      amount: 20,
      unit: 'psi',
      hours: expect.closeTo(4, 9),
      atLeast: false,
    });
  });

  it('is a least time where no loss is shown, and is not told where the pressure rises', () => {
    const remark = lost(...steady);
    expect(remark).toMatchObject({ atLeast: true });
    const expanded = leak(...steady).measured?.expanded ?? 0;
    expect(remark?.hours).toBeCloseTo(20 / expanded, 6);
    expect(
      lost(shot('08:00:00', '100 psi'), shot('10:00:00', '110 psi'), shot('12:00:00', '120 psi')),
    ).toBeUndefined();
  });
});

describe('leak-down’s parameters', () => {
  it('keep to the unit of their channel', () => {
    const channels = `channels:\n  - {id: tank, title: tank, quantity: pressure, unit: bar, by: gauge, depends: [compressor]}`;
    const bars = `${channels}\nchecks:\n${check().replaceAll('psi/h', 'bar/h')}`;
    const shots = [shot('08:00:00', '8.00 bar'), shot('10:00:00', '7.00 bar'), shot('12:00:00', '6.00 bar')];
    const { measured } = findingOf(sheetOf(shots, '', bars), 'leak', 'tank');
    expect(measured).toMatchObject({ value: expect.closeTo(0.5, 9), unit: 'bar/h' });
  });

  it('bring a unit without a rate of its own to kilopascals', () => {
    const channels = `channels:\n  - {id: tank, title: tank, quantity: pressure, unit: mbar, by: gauge, depends: [compressor]}`;
    const shots = [shot('08:00:00', '800 mbar'), shot('10:00:00', '700 mbar'), shot('12:00:00', '600 mbar')];
    const { measured } = findingOf(sheetOf(shots, '', `${channels}\n${pack}`), 'leak', 'tank');
    expect(measured).toMatchObject({ value: expect.closeTo(5, 9), unit: 'kPa/h' });
  });

  it('name a pressure', () => {
    expect(packProblems(packOf().replace('of: tank', 'of: supply'))).toEqual(['wrong-value']);
    expect(packProblems(packOf(', reserve: 20 V'))).toEqual(['wrong-unit']);
  });
});
