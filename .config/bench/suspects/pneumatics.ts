import { compressorVolts } from './supply.ts';
import type { Car } from './vehicle.ts';

/** psi of the air around. */
const around = 14.7;

/**
 * Tank pressure so many hours after it was shut in, psi: what leaks is in proportion to the pressure (its rate counts
 * at 120 psi), and the pressure that is left follows the absolute temperature.
 */
export const tankAfter = (car: Car, hours: number, cooling: number): number => {
  const left = car.tank.psi * Math.exp((-car.tank.leak / 120) * hours);
  return (left + around) * ((273 + car.air + cooling) / (273 + car.air)) - around;
};

/** psi a minute: a motor turns as fast as its volts let it, and a blocked dryer passes a part. */
export const pumpingRate = (car: Car): number => {
  const { rate, dryer } = car.compressor;
  const volts = compressorVolts(car);
  // Below 6 V or so a piston compressor stalls against its head.
  const speed = Math.max(0, (volts - 6) / (13.8 - 6));
  return Math.max(0, rate * dryer * Math.min(1.15, speed) - car.tank.leak / 60);
};
