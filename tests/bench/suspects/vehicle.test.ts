import { describe, expect, it } from 'vitest';
import { rigid, sagged } from '../../../.config/bench/suspects/body.ts';
import { drawMember, faults } from '../../../.config/bench/suspects/faults.ts';
import { tankAfter } from '../../../.config/bench/suspects/pneumatics.ts';
import { drawFrom } from '../../../.config/bench/suspects/random.ts';
import {
  bodyOf,
  levellingOf,
  plugSupply,
  railsOf,
  signalOf,
} from '../../../.config/bench/suspects/signals.ts';
import { moduleSupply } from '../../../.config/bench/suspects/supply.ts';
import { type Car, goodCar } from '../../../.config/bench/suspects/vehicle.ts';
import { corners } from '../../../src/core/corner.ts';

/** A good vehicle with four corners, nothing levelled, and what a test changes of it. */
const carWith = (change: Partial<Car> = {}): Car => {
  const number = Array.from({ length: 50 }, (_, index) => index).find(
    (index) => goodCar(drawFrom(1, index)).layout === 'four-corner-air',
  );
  return { ...goodCar(drawFrom(1, number ?? 0)), levelling: 'disabled', ...change };
};

const shown = (car: Car) => corners.map((corner) => signalOf(car, corner, 0).shown);

describe('the sensors and what they share', () => {
  it('an open ground puts every signal near the reference, and leaves its plugs no supply', () => {
    const car = carWith({ sensorGround: 1e9 });
    const rails = railsOf(car);
    for (const corner of corners) {
      expect(rails.reference - signalOf(car, corner, 0).plug).toBeLessThan(0.1);
      expect(plugSupply(car, corner, rails)).toBeLessThan(0.1);
    }
  });

  it('a ground that resists raises each signal by b·(1 − V/Vref)', () => {
    const good = carWith();
    const bad = carWith({ sensorGround: 60 });
    const whole = railsOf(good).reference - railsOf(good).ground;
    const b = railsOf(bad).ground - railsOf(good).ground;
    expect(b).toBeGreaterThan(0.1);
    for (const corner of corners) {
      const [was, is] = [signalOf(good, corner, 0).plug, signalOf(bad, corner, 0).plug];
      expect(is - was).toBeCloseTo(b * (1 - was / whole), 1);
      expect(is).toBeGreaterThan(was);
    }
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

  it('a joint in the wire that all share is not divided out', () => {
    const good = carWith();
    const car = { ...good, module: { ...good.module, ratiometric: true } };
    const bad = { ...car, reference: { ...car.reference, ohms: 200 } };
    for (const [place, volts] of shown(car).entries()) expect(shown(bad)[place]).toBeLessThan(volts - 0.1);
  });

  it('a sensor that shorts its supply takes all down, and its plug off brings them back', () => {
    const good = carWith();
    const car = { ...good, sensor: { ...good.sensor, RF: { ...good.sensor.RF, ohms: 10 } } };
    expect(plugSupply(car, 'LR', railsOf(car))).toBeLessThan(2);
    expect(plugSupply(car, 'LR', railsOf(car, 'RF'))).toBeGreaterThan(4.8);
  });

  it('a broken signal wire goes the way that the module biases it, and is right at the plug', () => {
    const good = carWith();
    const cut = { ...good, wiring: { ...good.wiring, LF: { ...good.wiring.LF, signal: 1e9 } } };
    const biased = (biasedHigh: boolean) =>
      signalOf({ ...cut, module: { ...cut.module, biasedHigh } }, 'LF', 0);
    expect(biased(true).shown).toBeGreaterThan(4.75);
    expect(biased(false).shown).toBeLessThan(0.25);
    expect(biased(true).plug).toBeCloseTo(signalOf(good, 'LF', 0).plug, 3);
  });

  it('a resistance in the signal wire loses volts by the divider that it makes with the bias', () => {
    const good = carWith();
    const module = { ...good.module, bias: 100e3, biasedHigh: false };
    const wiring = { ...good.wiring, LR: { ...good.wiring.LR, signal: 10e3 } };
    const { plug, pin } = signalOf({ ...good, module, wiring }, 'LR', 0);
    expect(pin / plug).toBeCloseTo(100 / 110, 6);
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

describe('body and air', () => {
  it('a rigid body takes three quarters of one corner, and a quarter at its neighbours', () => {
    const asked = { LF: 0, RF: 0, LR: 0, RR: -40 };
    expect(rigid(asked)).toEqual({ LF: 10, RF: -10, LR: -10, RR: -30 });
  });

  it('a spring that leaks lets its own corner down most, and no further than its stop', () => {
    const car = carWith({ sag: { LF: 0, RF: 0, LR: 500, RR: 0 } });
    const down = sagged(car, 10);
    expect(down.LR).toBe(Math.min(...Object.values(down)));
    expect(sagged(car, 100)).toEqual(down);
  });

  it('levelling hides a drift from the display and shows it to the tape', () => {
    const good = carWith();
    const drifted = { ...good.sensor.LF, drift: 40 * good.sensor.LF.gain };
    const car: Car = { ...good, levelling: 'active', sensor: { ...good.sensor, LF: drifted } };
    expect(levellingOf(car)).toBe('active');
    expect(bodyOf(car, 0).LF).toBeLessThan(-25);
    const idle = signalOf(car, 'LF', 0).shown - signalOf(good, 'LF', 0).shown;
    const active = signalOf(car, 'LF', bodyOf(car, 0).LF).shown - signalOf(good, 'LF', 0).shown;
    expect(Math.abs(active)).toBeLessThan(0.5 * Math.abs(idle));
  });

  it('shut in and tight, a tank follows the absolute temperature', () => {
    const car = carWith({ air: 20, tank: { psi: 120, leak: 0 } });
    expect(tankAfter(car, 10, 0)).toBeCloseTo(120, 6);
    expect(tankAfter(car, 10, -20)).toBeCloseTo(134.7 * (273 / 293) - 14.7, 6);
  });
});

describe('the fleet', () => {
  it('is the same for the same seed, and another for another', () => {
    const fleet = (seed: number) =>
      Array.from({ length: 20 }, (_, number) => drawMember(number, drawFrom(seed, number)));
    expect(fleet(7)).toEqual(fleet(7));
    expect(fleet(7)).not.toEqual(fleet(8));
  });

  it('has no two faults of one name', () => {
    const names = faults.map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
  });
});
