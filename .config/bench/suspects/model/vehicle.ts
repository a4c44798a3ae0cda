import type { Corner } from '../../../../src/core/corner.ts';
import type { PerAxle, PerCorner } from './per-corner.ts';

/** What stands for a wire or a fuse that is broken, ohms. */
export const brokenOhms = 1e9;

/** Whether a resistance stands for a wire that is broken. */
export const isBroken = (ohms: number): boolean => ohms >= brokenOhms;

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
  /** True for one of the other hand: it goes the other way. */
  readonly otherHand: boolean;
}

/** Three wires between module and sensor. */
export interface Wiring {
  /** Ohms in the signal wire. */
  readonly signal: number;
  readonly reference: 'whole' | 'broken';
  readonly ground: 'whole' | 'broken';
  /** What the signal wire touches. */
  readonly touches: 'nothing' | 'ground' | 'reference';
  /** True where a strand makes and breaks as the vehicle stands. */
  readonly intermittent: boolean;
}

/** The control module: its feed and ground with their joints, and how it measures. Ohms, amperes, volts. */
export interface Module {
  readonly feed: number;
  readonly ground: number;
  /** What flows with its consumers on, at 12 V. */
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
  /** Meanings of codes that it stores of itself. */
  readonly codes: readonly string[];
  /** Whether its codes of signals say open and short, or only that a signal is out of its range. */
  readonly tellsCircuits: boolean;
}

/** A compressor with its feed, dryer and exhaust valve. */
export interface Compressor {
  /** psi a minute into this vehicle's tank with 13.5 V at its plug and little back pressure. */
  readonly rate: number;
  /** What its rings still move, 0 to 1. */
  readonly health: number;
  /** Current at its rated pressure and 13.5 V, amperes. */
  readonly amps: number;
  /** psi, as the plate says. */
  readonly rated: number;
  /** Ohms in its feed: relay, fuse, wire. */
  readonly feed: number;
  /** Why it does not turn: its motor, or its heat cut-out, which lets go after half an hour. */
  readonly dead: 'no' | 'motor' | 'cut-out';
  /** What the dryer lets through of what a good one does, 0 to 1. */
  readonly dryer: number;
  /** How far the exhaust valve stands open while it should hold, 0 to 1. */
  readonly exhaust: number;
  /** True where the exhaust valve does not open. */
  readonly shut: boolean;
  /** How hot it runs: above 1 its protection sets a code. */
  readonly heat: number;
}

/** All that is physically true of one vehicle. Volts, ohms, amperes, millimetres, psi, °C. */
export interface Car {
  readonly layout: 'four-corner-air' | 'rear-air-assist';
  readonly fitted: readonly Corner[];
  /** Of the day, in the shade. */
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
  readonly charging: {
    readonly setPoint: number;
    /** Volts less for each degree that its regulator is warmer than 25 °C. */
    readonly perDegree: number;
    readonly works: boolean;
    /** Volts that it gives away under full load. */
    readonly sags: number;
    /** AC volts at the battery under load. */
    readonly ripple: number;
    /** Volts that a computer takes off it while the battery needs nothing; null for a fixed one. */
    readonly rests: number | null;
  };
  readonly standingAmps: number;
  readonly module: Module;
  readonly reference: {
    /** Of the regulator, unloaded. */
    readonly volts: number;
    /** Where its current limit begins, amperes. */
    readonly limit: number;
    /** Ohms in the shared wire. */
    readonly ohms: number;
  };
  /** Ohms in the ground that all sensors share, and in the splice of each axle. */
  readonly sensorGround: { readonly shared: number } & PerAxle<number>;
  readonly sensor: PerCorner<Sensor>;
  readonly wiring: PerCorner<Wiring>;
  /** Axles whose two plugs were put on crossed. */
  readonly crossed: PerAxle<boolean>;
  /** How far a bent or slipped linkage puts its sensor out, mm; null where it hangs off. */
  readonly linkage: PerCorner<number | null>;
  /** Stiffness of a spring of each axle against the others', and roll stiffness that the bars add to that of the springs. */
  readonly springs: PerAxle<number> & { readonly bars: number };
  /** Where each spring would stand by itself, mm off nominal, with nothing levelling it. */
  readonly lean: PerCorner<number>;
  /** How far each wheel's centre stands off its nominal height over the floor, mm. */
  readonly tyre: PerCorner<number>;
  readonly levelling: {
    /** Whether it works as the vehicle stands, or somebody switched it off. */
    readonly is: 'active' | 'disabled';
    /** Whether it has worked until the vehicle came in: then the body stands where it put it. */
    readonly worked: boolean;
    readonly mode: 'normal' | 'transport' | 'jacking' | 'off';
    /** How far the learnt targets lie from the nominal height, mm. */
    readonly target: PerCorner<number>;
    /** mm within which it leaves the body alone. */
    readonly deadband: number;
  };
  /** mm an hour that each spring loses to the outside, and gains from the tank or another spring, while it stands. */
  readonly sag: PerCorner<number>;
  readonly passes: PerCorner<number>;
  /** Where there is no tank it is the line to the rear springs. `leak` in psi an hour at 120 psi; litres. */
  readonly tank: { readonly psi: number; readonly leak: number; readonly volume: number };
  /** Of the vehicle's own pressure sensor. */
  readonly pressureSensor: { readonly gain: number; readonly offset: number };
  readonly compressor: Compressor;
  /** Ohms across the network with its two ends. */
  readonly network: number;
  readonly damper: PerCorner<{ readonly ohms: number; readonly worn: boolean }>;
  /** Nominal heights, mm, from the wheel's centre, and of the wheel's centre over the floor. */
  readonly height: PerCorner<{ readonly centre: number; readonly wheel: number }>;
  /** Share of errors in the instruments that nobody knows of. */
  readonly instruments: { readonly meter: number; readonly gauge: number };
  /** What the file says of the vehicle. */
  readonly known: {
    readonly sense: boolean;
    readonly band: boolean;
    readonly heights: boolean;
    readonly temperature: boolean;
    readonly targets: boolean;
    readonly plate: boolean;
  };
}

/** The share for each millimetre by which a good sensor of a corner would go. */
export const goodGain = ({ sensor }: Car, corner: Corner): number =>
  sensor[corner].gain * (sensor[corner].otherHand ? -1 : 1);
