import { type Corner, corners } from '../../../../src/core/corner.ts';
import type { Draw } from './draw.ts';
import { type PerCorner, perCorner } from './per-corner.ts';
import type { Car, Compressor, Module, Sensor, Wiring } from './vehicle.ts';

// All component data are judgement, from memory.

const wholeWire: Wiring = {
  signal: 0.3,
  reference: 'whole',
  ground: 'whole',
  touches: 'nothing',
  intermittent: false,
};

/** One maker's choice for the whole vehicle: all sensors go one way, or mirrored from side to side. */
const goodSensors = (draw: Draw): PerCorner<Sensor> => {
  const mirrored = draw.chance(0.5);
  // 15 to 25 mV/mm at 5 V.
  const gain = draw.uniform(0.003, 0.005);
  return perCorner((corner) => ({
    gain: (mirrored && corner.startsWith('R') ? -1 : 1) * gain * (1 + draw.normal(0, 0.01)),
    centre: 0.5 + draw.normal(0, 0.012),
    drift: 0,
    stuck: null,
    jump: 0,
    ohms: draw.uniform(600, 5000),
    otherHand: false,
  }));
};

const goodModule = (draw: Draw): Module => ({
  feed: draw.uniform(0.008, 0.025),
  ground: draw.uniform(0.002, 0.006),
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
  tellsCircuits: draw.chance(0.4),
});

const goodCompressor = (volume: number, draw: Draw): Compressor => ({
  // A large tank has a large compressor, but not as large.
  rate: draw.uniform(30, 45) * (5 / volume) ** 0.7,
  health: draw.uniform(0.92, 1),
  amps: draw.uniform(18, 30),
  rated: draw.uniform(150, 232),
  feed: draw.uniform(0.008, 0.02),
  dead: 'no',
  dryer: draw.uniform(0.9, 1),
  exhaust: 0,
  shut: false,
  heat: draw.uniform(0.3, 0.7),
});

/** Nominal heights of an axle, mm, the same left and right. */
const nominalHeights = (draw: Draw): Car['height'] => {
  const front = { centre: draw.uniform(340, 420), wheel: draw.uniform(330, 370) };
  const rear = { centre: draw.uniform(350, 440), wheel: front.wheel };
  return { LF: front, RF: front, LR: rear, RR: rear };
};

/** Weather from a hard frost to a hot apron, most of it between. */
const weather = (draw: Draw): number => {
  if (draw.chance(0.15)) return draw.uniform(-30, -5);
  return draw.chance(0.15) ? draw.uniform(32, 48) : draw.uniform(-5, 32);
};

/** A good vehicle, with the spread that good parts have. */
export const goodCar = (draw: Draw): Car => {
  const layout = draw.chance(0.75) ? 'four-corner-air' : 'rear-air-assist';
  const fitted: readonly Corner[] = layout === 'four-corner-air' ? corners : ['LR', 'RR'];
  const volume = draw.pick([4, 5, 6, 8, 10]);
  const compressor = goodCompressor(volume, draw);
  return {
    layout,
    fitted,
    air: weather(draw),
    battery: {
      kind: draw.pick(['flooded', 'agm'] as const),
      charge: draw.uniform(0.92, 1),
      offset: draw.normal(0, 0.012),
      ohms: draw.logUniform(0.0045, 0.007),
    },
    starterAmps: draw.uniform(160, 240),
    charging: {
      setPoint: draw.uniform(14, 14.5),
      perDegree: draw.uniform(0, 0.012),
      works: true,
      sags: draw.uniform(0, 0.25),
      ripple: draw.uniform(0.01, 0.06),
      rests: draw.chance(0.15) ? draw.uniform(0, 1.2) : null,
    },
    standingAmps: draw.logUniform(0.012, 0.035),
    module: goodModule(draw),
    reference: { volts: draw.normal(5, 0.015), limit: draw.uniform(0.06, 0.15), ohms: 0.1 },
    sensorGround: { shared: draw.uniform(0.05, 0.25), front: 0.05, rear: 0.05 },
    sensor: goodSensors(draw),
    wiring: perCorner(() => wholeWire),
    crossed: { front: false, rear: false },
    linkage: perCorner(() => draw.normal(0, 1)),
    springs: { front: 1, rear: draw.uniform(0.8, 1.2), bars: draw.uniform(0.2, 1.2) },
    lean: perCorner(() => draw.normal(0, 2.5)),
    tyre: perCorner(() => draw.normal(0, 0.8)),
    levelling: {
      is: draw.chance(0.45) ? 'active' : 'disabled',
      worked: draw.chance(0.4),
      mode: 'normal',
      target: perCorner(() => 0),
      deadband: draw.uniform(1.5, 4),
    },
    sag: perCorner(() => draw.uniform(0, 0.15)),
    passes: perCorner(() => 0),
    tank: {
      psi: layout === 'four-corner-air' ? compressor.rated * draw.uniform(0.72, 0.92) : draw.uniform(14, 36),
      leak: draw.logUniform(0.05, 0.8),
      volume,
    },
    pressureSensor: { gain: 1 + draw.normal(0, 0.004), offset: draw.normal(0, 0.5) },
    compressor,
    network: draw.uniform(59.2, 60.8),
    damper: perCorner(() => ({ ohms: draw.normal(6, 0.1), worn: false })),
    height: nominalHeights(draw),
    instruments: { meter: 0, gauge: 0 },
    known: {
      sense: draw.chance(0.95),
      band: draw.chance(0.7),
      heights: draw.chance(0.8),
      temperature: draw.chance(0.8),
      targets: draw.chance(0.4),
      plate: draw.chance(0.6),
    },
  };
};
