import { type Corner, corners } from '../../../src/core/corner.ts';
import type { Draw } from './random.ts';

export type PerCorner<T> = Readonly<Record<Corner, T>>;

/** One value a corner. */
export const perCorner = <T>(make: (corner: Corner) => T): PerCorner<T> => ({
  LF: make('LF'),
  RF: make('RF'),
  LR: make('LR'),
  RR: make('RR'),
});

/** A position sensor: a divider of its supply by the angle of its arm. */
export interface Sensor {
  /** Share of the supply for each millimetre that the body rises; below 0 for one that falls. */
  readonly gain: number;
  /** Share at the body's nominal height. */
  readonly centre: number;
  /** Drift, as a share. */
  readonly drift: number;
  /** The share that it gives whatever its arm does; null where it follows. */
  readonly stuck: number | null;
  /** Half the width, as a share, by which a worn track jumps. */
  readonly jump: number;
  /** Ohms between its supply and its ground. */
  readonly ohms: number;
}

/** Three wires between module and sensor. */
export interface Wiring {
  /** Ohms in the signal wire; infinite where it is broken. */
  readonly signal: number;
  readonly reference: 'whole' | 'broken';
  readonly ground: 'whole' | 'broken';
  /** What the signal wire touches. */
  readonly touches: 'nothing' | 'ground' | 'reference';
  /** True where a strand makes and breaks as the vehicle stands. */
  readonly intermittent: boolean;
}

/** All that is physically true of one vehicle. Volts, ohms, amperes, millimetres, psi, °C. */
export interface Car {
  readonly layout: 'four-corner-air' | 'rear-air-assist';
  readonly fitted: readonly Corner[];
  readonly air: number;
  readonly battery: {
    readonly kind: 'flooded' | 'agm';
    /** State of charge after the night, 0 to 1. */
    readonly charge: number;
    /** How far its rest volts lie from the usual table's, and a dead cell. */
    readonly offset: number;
    readonly ohms: number;
  };
  readonly starterAmps: number;
  readonly charging: { readonly setPoint: number; readonly perDegree: number; readonly works: boolean };
  readonly standingAmps: number;
  /** Feed and ground of the module with their joints, and what flows with its consumers on. */
  readonly module: {
    readonly feed: number;
    readonly ground: number;
    readonly amps: number;
    /** Lost in its polarity protection before it measures. */
    readonly protection: number;
    readonly supplyGain: number;
    readonly supplyOffset: number;
    /** Of all signals alike, behind its pins. */
    readonly signalGain: number;
    readonly signalOffset: number;
    /** Divides what it reads by its own reference. */
    readonly ratiometric: boolean;
    /** Ohms to its bias, and which way an unplugged input goes. */
    readonly bias: number;
    readonly biasedHigh: boolean;
    readonly codes: readonly string[];
    readonly boots: boolean;
  };
  readonly reference: {
    /** Of the regulator, unloaded. */
    readonly volts: number;
    /** Where its current limit begins, amperes. */
    readonly limit: number;
    /** Ohms in the shared wire. */
    readonly ohms: number;
  };
  /** Ohms in the shared ground of the sensors. */
  readonly sensorGround: number;
  readonly sensor: PerCorner<Sensor>;
  readonly wiring: PerCorner<Wiring>;
  /** How far a bent or slipped linkage puts its sensor out, mm; null where it hangs off. */
  readonly linkage: PerCorner<number | null>;
  /** How far arms, load and springs put the body out when nothing levels it, mm. */
  readonly lean: PerCorner<number>;
  readonly levelling: 'active' | 'disabled';
  /** How far the learnt targets lie from the nominal height, mm. */
  readonly target: PerCorner<number>;
  /** What each spring loses of its length while it stands, mm/h. */
  readonly sag: PerCorner<number>;
  readonly tank: { readonly psi: number; readonly leak: number };
  readonly compressor: {
    /** psi a minute with 13.8 V at its plug. */
    readonly rate: number;
    /** What its feed loses while it runs, ohms, and what it draws. */
    readonly feed: number;
    readonly amps: number;
    /** What the dryer lets through, 0 to 1. */
    readonly dryer: number;
    /** How hot it runs: above 1 its protection sets a code. */
    readonly heat: number;
  };
  /** Ohms across the network with its two ends. */
  readonly network: number;
  readonly damper: PerCorner<number>;
  /** Nominal heights, mm, from the wheel's centre and from the floor. */
  readonly height: PerCorner<{ readonly centre: number; readonly floor: number }>;
  /** What the file says of the vehicle. */
  readonly known: {
    readonly sense: boolean;
    readonly band: boolean;
    readonly heights: boolean;
    readonly temperature: boolean;
  };
}

const goodSensor = (draw: Draw, sense: 1 | -1): Sensor => ({
  // 15 to 25 mV/mm at 5 V.
  gain: sense * draw.uniform(0.003, 0.005),
  centre: 0.5 + draw.normal(0, 0.012),
  drift: 0,
  stuck: null,
  jump: 0,
  ohms: draw.uniform(600, 5000),
});

const wholeWire: Wiring = {
  signal: 0.3,
  reference: 'whole',
  ground: 'whole',
  touches: 'nothing',
  intermittent: false,
};

/** A good vehicle, with the spread that good parts have. Component data from memory. */
export const goodCar = (draw: Draw): Car => {
  const layout = draw.chance(0.75) ? 'four-corner-air' : 'rear-air-assist';
  const fitted: readonly Corner[] = layout === 'four-corner-air' ? corners : ['LR', 'RR'];
  // One maker's choice for the whole vehicle: all alike, or mirrored from side to side.
  const mirrored = draw.chance(0.5);
  const gain = Math.abs(goodSensor(draw, 1).gain);
  const centre = { front: draw.uniform(340, 420), rear: draw.uniform(350, 440) };
  const tyre = draw.uniform(330, 370);
  return {
    layout,
    fitted,
    air: draw.uniform(-5, 32),
    battery: {
      kind: draw.pick(['flooded', 'agm'] as const),
      charge: draw.uniform(0.88, 1),
      offset: draw.normal(0, 0.02),
      ohms: draw.logUniform(0.0045, 0.007),
    },
    starterAmps: draw.uniform(160, 240),
    charging: { setPoint: draw.uniform(14.05, 14.4), perDegree: draw.uniform(0.018, 0.03), works: true },
    standingAmps: draw.logUniform(0.012, 0.035),
    module: {
      feed: draw.uniform(0.008, 0.025),
      ground: draw.uniform(0.003, 0.012),
      amps: draw.uniform(2.5, 5),
      protection: draw.uniform(0, 0.2),
      supplyGain: 1 + draw.normal(0, 0.001),
      supplyOffset: 0,
      signalGain: 1 + draw.normal(0, 0.001),
      signalOffset: 0,
      ratiometric: draw.chance(0.6),
      bias: draw.logUniform(47e3, 470e3),
      biasedHigh: draw.chance(0.5),
      codes: [],
      boots: true,
    },
    reference: { volts: draw.normal(5, 0.015), limit: draw.uniform(0.06, 0.15), ohms: 0.1 },
    sensorGround: draw.uniform(0.05, 0.3),
    sensor: perCorner((corner) => ({
      ...goodSensor(draw, mirrored && corner.startsWith('R') ? -1 : 1),
      gain: (mirrored && corner.startsWith('R') ? -1 : 1) * gain * (1 + draw.normal(0, 0.01)),
    })),
    wiring: perCorner(() => wholeWire),
    linkage: perCorner(() => draw.normal(0, 1)),
    lean: perCorner(() => draw.normal(0, 2)),
    levelling: draw.chance(0.45) ? 'active' : 'disabled',
    target: perCorner(() => 0),
    sag: perCorner(() => draw.uniform(0, 0.5)),
    // Where there is no tank it is the line to the rear springs.
    tank: {
      psi: layout === 'four-corner-air' ? draw.uniform(108, 150) : draw.uniform(13, 36),
      leak: draw.logUniform(0.05, 0.8),
    },
    compressor: {
      rate: draw.uniform(22, 35),
      feed: draw.uniform(0.01, 0.03),
      amps: draw.uniform(18, 30),
      dryer: draw.uniform(0.95, 1),
      heat: draw.uniform(0.3, 0.7),
    },
    network: draw.uniform(59.2, 60.8),
    damper: perCorner(() => draw.normal(6, 0.1)),
    height: perCorner((corner) => {
      const above = corner.endsWith('F') ? centre.front : centre.rear;
      return { centre: above, floor: above + tyre };
    }),
    known: {
      sense: draw.chance(0.95),
      band: draw.chance(0.7),
      heights: draw.chance(0.8),
      temperature: draw.chance(0.8),
    },
  };
};
