import { describe, expect, it } from 'vitest';
import { fillsInTime, runAgainst, tankAfter } from '../../../.config/bench/suspects/model/air.ts';
import { standOn, travel } from '../../../.config/bench/suspects/model/body.ts';
import { commanded, movedBy } from '../../../.config/bench/suspects/model/command.ts';
import { drawFrom } from '../../../.config/bench/suspects/model/draw.ts';
import { levellingOf } from '../../../.config/bench/suspects/model/levelling.ts';
import { drawMember, faults } from '../../../.config/bench/suspects/model/member.ts';
import { groundAtPlug, plugSupply, railsOf } from '../../../.config/bench/suspects/model/rails.ts';
import { signalOf } from '../../../.config/bench/suspects/model/signals.ts';
import { standAt } from '../../../.config/bench/suspects/model/stand.ts';
import { moduleSupply } from '../../../.config/bench/suspects/model/supply.ts';
import { brokenOhms, type Car } from '../../../.config/bench/suspects/model/vehicle.ts';
import { corners } from '../../../src/core/corner.ts';
import { carWith, level } from './support.ts';

const shown = (car: Car) => corners.map((corner) => signalOf(car, corner, level).shown);

const grounds = (car: Car, change: Partial<Car['sensorGround']>): Car => ({
  ...car,
  sensorGround: { ...car.sensorGround, ...change },
});

describe('the sensors and what they share', () => {
  it('an open ground puts every signal near the reference, and leaves its plugs no supply', () => {
    const car = grounds(carWith(), { shared: brokenOhms });
    const rails = railsOf(car);
    for (const corner of corners) {
      expect(rails.reference - signalOf(car, corner, level).plug).toBeLessThan(0.1);
      expect(plugSupply(car, corner, rails)).toBeLessThan(0.1);
    }
  });

  it('a ground that resists raises each signal by b·(1 − V/Vref)', () => {
    const good = carWith();
    const bad = grounds(good, { shared: 60 });
    const whole = railsOf(good).reference - railsOf(good).ground.front;
    const b = railsOf(bad).ground.front - railsOf(good).ground.front;
    expect(b).toBeGreaterThan(0.1);
    for (const corner of corners) {
      const [was, is] = [signalOf(good, corner, level).plug, signalOf(bad, corner, level).plug];
      expect(is - was).toBeCloseTo(b * (1 - was / whole), 1);
      expect(is).toBeGreaterThan(was);
    }
  });

  it('the splice of one axle leaves the other axle as it is', () => {
    const rails = railsOf(grounds(carWith(), { rear: 300 }));
    expect(rails.ground.rear).toBeGreaterThan(0.2);
    expect(rails.ground.front).toBeLessThan(0.02);
  });

  it('a lifted module ground lifts the ground at every plug, and no signal that the module sees', () => {
    const good = carWith();
    const car = { ...good, module: { ...good.module, ground: 0.3, amps: 4 } };
    for (const corner of corners) expect(groundAtPlug(car, corner, railsOf(car))).toBeGreaterThan(0.8);
    for (const [place, volts] of shown(good).entries()) expect(shown(car)[place]).toBeCloseTo(volts, 3);
  });

  it('a regulator that gives 4 V leaves a display as it was where the module divides by it, and not elsewhere', () => {
    const with4 = (ratiometric: boolean): [number[], number[]] => {
      const good = carWith();
      const car = { ...good, module: { ...good.module, ratiometric } };
      return [shown(car), shown({ ...car, reference: { ...car.reference, volts: 4 } })];
    };
    const [was, is] = with4(true);
    for (const [place, volts] of was.entries()) expect(is[place]).toBeCloseTo(volts, 2);
    const [absolute, lower] = with4(false);
    for (const [place, volts] of absolute.entries())
      expect((lower[place] ?? 0) / volts).toBeCloseTo(4 / carWith().reference.volts, 1);
  });

  it('a sensor that shorts its supply takes all down, and its plug off brings them back', () => {
    const good = carWith();
    const car = { ...good, sensor: { ...good.sensor, RF: { ...good.sensor.RF, ohms: 10 } } };
    expect(plugSupply(car, 'LR', railsOf(car))).toBeLessThan(2);
    expect(plugSupply(car, 'LR', railsOf(car, ['RF']))).toBeGreaterThan(4.8);
  });

  it('a broken signal wire goes the way that the module biases it, and is right at the plug', () => {
    const good = carWith();
    const cut = { ...good, wiring: { ...good.wiring, LF: { ...good.wiring.LF, signal: brokenOhms } } };
    const biased = (biasedHigh: boolean) =>
      signalOf({ ...cut, module: { ...cut.module, biasedHigh } }, 'LF', level);
    expect(biased(true).shown).toBeGreaterThan(4.75);
    expect(biased(false).shown).toBeLessThan(0.25);
    expect(biased(true).plug).toBeCloseTo(signalOf(good, 'LF', level).plug, 3);
  });

  it('crossed plugs bring each signal of an axle in by the wires of the other', () => {
    const good = carWith();
    const car = { ...good, crossed: { front: true, rear: false } };
    const leaning = { ...level, LF: -30 };
    expect(signalOf(car, 'RF', leaning).plug).toBeCloseTo(signalOf(good, 'LF', leaning).plug, 6);
    expect(signalOf(car, 'LR', leaning).plug).toBe(signalOf(good, 'LR', leaning).plug);
  });
});

describe('the supply', () => {
  it('a joint drops its resistance times the current, and the drops and the pins add up to the post', () => {
    const good = carWith();
    const { feedDrop, groundDrop, pins, post } = moduleSupply(
      { ...good, module: { ...good.module, feed: 1, amps: 4 } },
      'key-on',
    );
    expect(feedDrop).toBeCloseTo((pins / 12) * 4, 6);
    expect(feedDrop + groundDrop + pins).toBeCloseTo(post, 6);
    expect(feedDrop).toBeGreaterThan(2);
  });
});

describe('the body', () => {
  it('goes down by ¾ where a spring loses 1, by ¼ at its neighbours, and up by ¼ across', () => {
    const { floor } = standOn(carWith(), { ...level, RR: -40 });
    expect(floor.RR).toBeCloseTo(-30, 9);
    expect(floor.LR).toBeCloseTo(-10, 9);
    expect(floor.RF).toBeCloseTo(-10, 9);
    expect(floor.LF).toBeCloseTo(10, 9);
  });

  it('takes 0.6, 0.2 and −0.2 of a corner with it where bars double the roll stiffness', () => {
    const { floor } = standOn(carWith({ springs: { front: 1, rear: 1, bars: 1 } }), { ...level, LF: -40 });
    expect(floor.RF / floor.LF).toBeCloseTo(0.6, 9);
    expect(floor.LR / floor.LF).toBeCloseTo(0.2, 9);
    expect(floor.RR / floor.LF).toBeCloseTo(-0.2, 9);
  });

  it('has no warp over the floor whatever stands under it, and stops at the ends of its travel', () => {
    const car = carWith({ tyre: { ...level, LF: -20 }, springs: { front: 1, rear: 0.8, bars: 0.7 } });
    const { floor, wheel } = standOn(car, { LF: -170, RF: 10, LR: -120, RR: 5 });
    expect(floor.LF - floor.RF - floor.LR + floor.RR).toBeCloseTo(0, 9);
    expect(Math.min(...Object.values(wheel))).toBeGreaterThan(-travel - 10);
  });

  it('is put by levelling where a wrong sensor wants it: ¾ of its error there, and the signals near their target', () => {
    const good = carWith();
    const drifted = { ...good.sensor.LF, drift: 40 * good.sensor.LF.gain };
    const car: Car = {
      ...good,
      levelling: { ...good.levelling, is: 'active', deadband: 0.5 },
      sensor: { ...good.sensor, LF: drifted },
    };
    expect(levellingOf(car)).toBe('active');
    const { wheel } = standAt(car, 'running');
    expect(wheel.LF).toBeGreaterThan(-33);
    expect(wheel.LF).toBeLessThan(-27);
    const off = (body: typeof wheel): number =>
      Math.abs(signalOf(car, 'LF', body).shown - signalOf(good, 'LF', level).shown);
    expect(off(wheel)).toBeLessThan(0.35 * off(level));
  });

  it('is driven to the end of its travel by a sensor of the other hand', () => {
    const good = carWith({ lean: { ...level, LR: -12 } });
    const { LR } = good.sensor;
    const car: Car = {
      ...good,
      levelling: { ...good.levelling, is: 'active' },
      sensor: { ...good.sensor, LR: { ...LR, gain: -LR.gain, otherHand: true } },
    };
    expect(Math.abs(standAt(car, 'running').wheel.LR)).toBeGreaterThan(60);
  });

  it('answers no command in transport mode', () => {
    const car = carWith();
    const off: Car = { ...car, levelling: { ...car.levelling, mode: 'transport' } };
    const moves = (one: Car): number => movedBy(one, commanded(one).low, commanded(one).high);
    expect(moves(car)).toBeGreaterThan(60);
    expect(moves(off)).toBe(0);
  });
});

describe('the air', () => {
  it('shut in and tight, a tank follows the absolute temperature', () => {
    const car = carWith({ air: 20, tank: { psi: 120, leak: 0, volume: 5 } });
    expect(tankAfter(car, 10, 0)).toBeCloseTo(120, 6);
    expect(tankAfter(car, 10, -20)).toBeCloseTo(134.7 * (273 / 293) - 14.7, 6);
  });

  it('gives a corner that rises by 10 mm some 2 psi of 5 litres', () => {
    const car = carWith({ tank: { psi: 120, leak: 0, volume: 5 }, passes: { ...level, LR: 1 } });
    expect(120 - tankAfter(car, 10, 0)).toBeCloseTo(2.1, 6);
  });

  it('a compressor draws much against a block, little into the open and none without its feed', () => {
    const { compressor } = carWith();
    const amps = (change: Partial<Car['compressor']>): number =>
      runAgainst(carWith({ compressor: { ...compressor, ...change } }), 90).amps / compressor.amps;
    expect(amps({})).toBeGreaterThan(0.6);
    expect(amps({})).toBeLessThan(1);
    expect(amps({ dryer: 0.1 })).toBeGreaterThan(1.2);
    expect(amps({ exhaust: 1 })).toBeLessThan(0.6);
    expect(amps({ feed: brokenOhms })).toBe(0);
  });

  it.each([
    ['worn', { health: 0.3 }],
    ['blocked', { dryer: 0.1 }],
    ['open', { exhaust: 1 }],
    ['badly fed', { feed: 0.3 }],
    ['stopped', { dead: 'motor' }],
  ] as const)('one that is %s fills too slowly', (_, change) => {
    const car = carWith();
    expect(fillsInTime(car)).toBe(true);
    expect(fillsInTime({ ...car, compressor: { ...car.compressor, ...change } })).toBe(false);
  });
});

describe('the fleet', () => {
  it('is the same for the same seed, and another for another', () => {
    const fleet = (seed: number) =>
      Array.from({ length: 20 }, (_, number) => drawMember(number, drawFrom(seed, number)));
    expect(JSON.stringify(fleet(7))).toBe(JSON.stringify(fleet(7)));
    expect(JSON.stringify(fleet(7))).not.toBe(JSON.stringify(fleet(8)));
  });

  it('has no two faults of one name, and two faults of different parts on some vehicles', () => {
    const names = faults.map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
    const pairs = Array.from(
      { length: 300 },
      (_, number) => drawMember(number, drawFrom(7, number)).troubles,
    ).filter(({ length }) => length === 2);
    expect(pairs.length).toBeGreaterThan(15);
    for (const [one, other] of pairs) expect(one?.component).not.toBe(other?.component);
  });
});
