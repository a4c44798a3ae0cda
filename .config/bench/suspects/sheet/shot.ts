import type { Corner } from '../../../../src/core/corner.ts';
import { shownPressure } from '../model/air.ts';
import type { Stand } from '../model/body.ts';
import type { Draw } from '../model/draw.ts';
import type { Instrument, Instruments } from '../model/instruments.ts';
import { boots, type Rails, railsOf } from '../model/rails.ts';
import { signalOf } from '../model/signals.ts';
import { type Moment, type Standing, standAt, warmingAt } from '../model/stand.ts';
import type { Car } from '../model/vehicle.ts';

export type Entry = readonly [key: string, text: string];

/** A snapshot as it is typed. */
export interface Shot {
  readonly id: string;
  readonly at: string;
  readonly state: string;
  readonly conditions: readonly Entry[];
  readonly readings: readonly Entry[];
  readonly more?: readonly string[];
}

export const braces = (entries: readonly Entry[]): string =>
  `{${entries.map(([key, value]) => `${key}: ${value}`).join(', ')}}`;

export const shotText = ({ id, at, state, conditions, readings, more = [] }: Shot): string =>
  [
    `  - id: ${id}`,
    `    at: ${at}`,
    `    state: ${state}`,
    ...(conditions.length > 0 ? [`    conditions: ${braces(conditions)}`] : []),
    '    readings:',
    ...readings.map(([channel, text]) => `      ${channel}: ${text}`),
    ...more.map((line) => `    ${line}`),
  ].join('\n');

/** What one technician does and leaves out. */
export interface Habits {
  /** Notes the levelling mode and lays the tape on the first look already. */
  readonly notesMode: boolean;
  readonly tapesFirst: boolean;
  /** Has the body raised and lowered on command. */
  readonly commands: boolean;
  /** Has a gauge for the springs. */
  readonly gaugesSprings: boolean;
  /** Notes the idle and the consumers. */
  readonly notesLoad: boolean;
}

export const habitsFrom = (draw: Draw): Habits => ({
  notesMode: draw.chance(0.3),
  tapesFirst: draw.chance(0.3),
  commands: draw.chance(0.5),
  gaugesSprings: draw.chance(0.2),
  notesLoad: draw.chance(0.8),
});

/** A vehicle before a technician, with what does not change while it is read. */
export interface Visit {
  readonly car: Car;
  readonly by: Instruments;
  readonly habits: Habits;
  readonly rails: Rails;
  readonly stand: Readonly<Record<Moment, Standing>>;
}

export const visitOf = (car: Car, by: Instruments, habits: Habits): Visit => ({
  car,
  by,
  habits,
  rails: railsOf(car),
  stand: {
    evening: standAt(car, 'evening'),
    late: standAt(car, 'late'),
    morning: standAt(car, 'morning'),
    'key-on': standAt(car, 'key-on'),
    running: standAt(car, 'running'),
  },
});

export const atCorners = ({ car }: Pick<Visit, 'car'>, text: (corner: Corner) => string): string =>
  braces(car.fitted.map((corner) => [corner, text(corner)] as const));

/** Why the scan tool shows nothing. */
export const silent = '{why: no communication with the module}';

/** A signal as it is typed: one that jumps as its two ends. */
export const signalText = (instrument: Instrument, volts: number, jump: number, by: Instruments): string => {
  if (jump < 0.015) return by.read(instrument, volts);
  const end = (away: number): string => by.read(instrument, Math.max(0.05, Math.min(5, volts + away)));
  return `{low: ${end(-jump)}, high: ${end(jump)}}`;
};

/** Signals as the module shows them. */
export const positions = (visit: Visit, { wheel }: Stand): string =>
  boots(visit.car)
    ? atCorners(visit, (corner) => {
        const { shown, jump } = signalOf(visit.car, corner, wheel, visit.rails);
        return signalText('module', shown, jump, visit.by);
      })
    : atCorners(visit, () => silent);

/** Heights by tape, from the wheels' centres or from the floor. */
export const tapes = (visit: Visit, stand: Stand, from: 'wheel-centre' | 'floor'): string =>
  atCorners(visit, (corner) => {
    const { centre, wheel } = visit.car.height[corner];
    const mm = from === 'floor' ? wheel + centre + stand.floor[corner] : centre + stand.wheel[corner];
    return visit.by.read('tape', mm);
  });

export const tankText = ({ car, by }: Visit, psi: number): string =>
  boots(car) ? by.read('shown-pressure', shownPressure(car, psi)) : silent;

/** The air's temperature at a moment, °C. */
export const airAt = (car: Car, moment: Moment): string => `${(car.air + warmingAt(moment)).toFixed(0)} °C`;
