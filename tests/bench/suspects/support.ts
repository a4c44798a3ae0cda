import type { Bench } from '../../../.config/bench/suspects/answers/bench.ts';
import { drawFrom } from '../../../.config/bench/suspects/model/draw.ts';
import { goodCar } from '../../../.config/bench/suspects/model/good-car.ts';
import { instrumentsFrom } from '../../../.config/bench/suspects/model/instruments.ts';
import { drawMember, type Member } from '../../../.config/bench/suspects/model/member.ts';
import { perCorner } from '../../../.config/bench/suspects/model/per-corner.ts';
import type { Car } from '../../../.config/bench/suspects/model/vehicle.ts';
import { habitsFrom, visitOf } from '../../../.config/bench/suspects/sheet/shot.ts';

/** A good vehicle with four corners that stands where it should, levelling switched off, and what a test changes of it. */
export const carWith = (change: Partial<Car> = {}): Car => {
  const number = Array.from({ length: 50 }, (_, index) => index).find(
    (index) => goodCar(drawFrom(1, index)).layout === 'four-corner-air',
  );
  const car = goodCar(drawFrom(1, number ?? 0));
  return {
    ...car,
    springs: { front: 1, rear: 1, bars: 0 },
    lean: perCorner(() => 0),
    tyre: perCorner(() => 0),
    sag: perCorner(() => 0),
    linkage: perCorner(() => 0),
    levelling: { ...car.levelling, is: 'disabled', worked: false },
    ...change,
  };
};

export const level = perCorner(() => 0);

/** A vehicle of the fleet with four corners whose only fault has this name. */
export const memberWith = (name: string): Member => {
  for (let number = 0; number < 4000; number += 1) {
    const member = drawMember(number, drawFrom(1, number));
    const [trouble, second] = member.troubles;
    if (trouble?.fault.name === name && !second && member.car.layout === 'four-corner-air') return member;
  }
  throw new Error(`nobody in the fleet has ${name}`);
};

export const benchOf = (member: Member): Bench => ({
  member,
  visit: visitOf(member.car, instrumentsFrom(drawFrom(1, 5), member.car), habitsFrom(drawFrom(1, 7))),
  luck: drawFrom(1, 6),
});
