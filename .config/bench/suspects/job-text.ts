import type { Corner } from '../../../src/core/corner.ts';
import { sagged } from './body.ts';
import { codesOf } from './codes.ts';
import type { Instrument, Instruments } from './instruments.ts';
import { pumpingRate, tankAfter } from './pneumatics.ts';
import { bodyOf, levellingOf, plugSupply, railsOf, signalOf } from './signals.ts';
import { moduleSupply, postVolts, type Running, restingVolts } from './supply.ts';
import type { Car } from './vehicle.ts';

/** How much is typed: a first look with the scan tool and a meter at the battery, or all that the packs have channels for. */
export type Depth = 'first look' | 'full sheet';

/** Hours that the vehicle stands between the evening's readings and the morning's. */
const night = 10;
/** Degrees by which the morning is colder. */
const cooler = -4;

const braces = (entries: readonly (readonly [string, string])[]): string =>
  `{${entries.map(([key, value]) => `${key}: ${value}`).join(', ')}}`;

const corners = (car: Car, text: (corner: Corner) => string): string =>
  braces(car.fitted.map((corner) => [corner, text(corner)] as const));

interface Shot {
  readonly id: string;
  readonly at: string;
  readonly state: string;
  readonly conditions: readonly (readonly [string, string])[];
  readonly readings: readonly (readonly [string, string])[];
  readonly more?: readonly string[];
}

const shotText = ({ id, at, state, conditions, readings, more = [] }: Shot): string =>
  [
    `  - id: ${id}`,
    `    at: ${at}`,
    `    state: ${state}`,
    ...(conditions.length > 0 ? [`    conditions: ${braces(conditions)}`] : []),
    '    readings:',
    ...readings.map(([channel, text]) => `      ${channel}: ${text}`),
    ...more.map((line) => `    ${line}`),
  ].join('\n');

/** A signal as it is typed: one that jumps as its two ends. */
const signalText = (instrument: Instrument, volts: number, jump: number, by: Instruments): string => {
  if (jump < 0.02) return by.read(instrument, volts);
  const end = (away: number): string => by.read(instrument, Math.max(0.05, Math.min(5, volts + away)));
  return `{low: ${end(-jump)}, high: ${end(jump)}}`;
};

/** Signals as the module shows them. */
const positions = (car: Car, by: Instruments): string => {
  const body = bodyOf(car, night);
  const rails = railsOf(car);
  return corners(car, (corner) => {
    const { shown, jump } = signalOf(car, corner, body[corner], rails);
    return signalText('module', shown, jump, by);
  });
};

const supplies = (car: Car, state: Running, by: Instruments): [string, string][] => [
  ['supply', by.read('module', moduleSupply(car, state).shown)],
  ['battery', by.read('meter', postVolts(car, state))],
];

const standing = (car: Car): [string, string][] => [
  ['floor', 'level'],
  ['load', 'empty'],
  ['air', `${(car.air + cooler).toFixed(0)} °C`],
  ['levelling', levellingOf(car)],
];

/** What the meter and the tape add with the key on, plugs and pins within reach. */
const closerKeyOn = (car: Car, by: Instruments): [string, string][] => {
  const body = bodyOf(car, night);
  const rails = railsOf(car);
  const at = (where: 'plug' | 'pin', jump: 'plugJump' | 'jump'): string =>
    corners(car, (corner) => {
      const signal = signalOf(car, corner, body[corner], rails);
      return signalText('meter', signal[where], signal[jump], by);
    });
  return [
    ['reference', corners(car, (corner) => by.read('meter', plugSupply(car, corner, rails)))],
    ['plug-signal', at('plug', 'plugJump')],
    ['pin-signal', at('pin', 'jump')],
    ['sensor-ground-drop', by.read('meter', rails.ground)],
    ['height', corners(car, (corner) => by.read('tape', car.height[corner].centre + body[corner]))],
  ];
};

const keyOn = (car: Car, by: Instruments, depth: Depth): Shot => ({
  id: 'as-found',
  at: '2026-03-03T08:10',
  state: 'key-on',
  conditions: [...standing(car), ['maintainer', 'off'], ['heights-from', 'wheel-centre']],
  readings: [
    ...supplies(car, 'key-on', by),
    ['position', positions(car, by)],
    ['tank', by.read('gauge', tankAfter(car, night, cooler))],
    ...(depth === 'full sheet' ? closerKeyOn(car, by) : []),
  ],
  more: [
    `lamp: ${codesOf(car).length > 0 ? 'on' : 'off'}`,
    `codes: [${codesOf(car)
      .map(
        ({ code, means, at }) => `{code: ${code}, status: stored, means: ${means}${at ? `, at: ${at}` : ''}}`,
      )
      .join(', ')}]`,
  ],
});

const cranking = (car: Car, by: Instruments): Shot => ({
  id: 'cranking',
  at: '2026-03-03T08:20',
  state: 'cranking',
  conditions: [['air', `${(car.air + cooler).toFixed(0)} °C`]],
  readings: [['battery', by.read('meter', postVolts(car, 'cranking'))]],
});

const running = (car: Car, by: Instruments, depth: Depth): Shot => {
  const supply = moduleSupply(car, 'running');
  return {
    id: 'running',
    at: '2026-03-03T08:30',
    state: 'running',
    conditions: [...standing(car), ['idle', 'raised']],
    readings: [
      ...supplies(car, 'running', by),
      ...(car.known.temperature
        ? [['battery-temperature', by.read('thermometer', car.air)] as [string, string]]
        : []),
      ['position', positions(car, by)],
      ...(depth === 'full sheet'
        ? ([
            ['pin-supply', by.read('meter', supply.pins)],
            ['pin-ground', by.read('meter', supply.groundDrop)],
            ['feed-drop', by.read('meter', supply.feedDrop)],
            ['ground-drop', by.read('meter', supply.groundDrop)],
          ] as const)
        : []),
    ],
  };
};

/** Three readings while the compressor fills a tank that was let down to 95 psi. */
const pumping = (car: Car, by: Instruments): Shot[] =>
  car.layout !== 'four-corner-air'
    ? []
    : [0, 1, 2].map((minutes) => ({
        id: `pumping-${minutes + 1}`,
        at: `2026-03-03T08:4${minutes}:00`,
        state: 'running',
        conditions: [
          ['compressor', 'on'],
          ['air', `${car.air.toFixed(0)} °C`],
        ],
        readings: [['tank', by.read('gauge', 95 + minutes * pumpingRate(car))]],
      }));

const restConditions = (car: Car, hours: number): [string, string][] => [
  ['floor', 'level'],
  ['load', 'empty'],
  ['levelling', 'disabled'],
  ['air-system', 'closed'],
  ['heights-from', 'floor'],
  ['air', `${(car.air + (cooler * hours) / night).toFixed(0)} °C`],
];

/** The evening, late, and the morning of a night at rest: tape, gauge, and in the morning the meter at the battery. */
const nightAtRest = (car: Car, by: Instruments): Shot[] =>
  [
    { id: 'evening', at: '2026-03-02T21:00', hours: 0 },
    { id: 'late', at: '2026-03-03T01:00', hours: 4 },
    { id: 'morning', at: '2026-03-03T07:00', hours: night },
  ].map(({ id, at, hours }) => {
    const down = sagged(car, hours);
    const heights = corners(car, (corner) => by.read('tape', car.height[corner].floor + down[corner]));
    return {
      id,
      at,
      state: 'rest',
      conditions: [
        ...restConditions(car, hours),
        ...(hours === night ? [['rested', '10 h'] as [string, string]] : []),
      ],
      readings: [
        ...(car.layout === 'four-corner-air'
          ? [['tank', by.read('gauge', tankAfter(car, hours, (cooler * hours) / night))] as const]
          : []),
        // Nobody gets up at one o'clock to lay a tape; the gauge has a memory.
        ...(id === 'late' ? [] : [['height', heights] as const]),
        ...(hours === night ? [['battery', by.read('meter', restingVolts(car))] as const] : []),
      ],
    };
  });

const network = (car: Car, by: Instruments): Shot => ({
  id: 'network',
  at: '2026-03-03T07:20',
  state: 'rest',
  conditions: [['asleep', '40 min']],
  readings: [['network-resistance', by.ohms(car.network)]],
});

/** What the maker's figures and the vehicle's own measured pairs say, where the file has them. */
const knownOf = (car: Car): string[] => {
  const good = (corner: Corner, mm: number): number =>
    5 * (car.sensor[corner].centre + car.sensor[corner].gain * mm);
  const pair = (corner: Corner): string => {
    const ends = [-40, 40].sort((a, b) => good(corner, a) - good(corner, b));
    const at = ends.map((mm) => `${good(corner, mm).toFixed(2)} V`).join(', ');
    const mm = ends.map((one) => (car.height[corner].centre + one).toFixed(0)).join(', ');
    return `    ${corner}: {at: [${at}], mm: [${mm}], from: wheel-centre}`;
  };
  return [
    ...(car.known.sense
      ? [
          `  sensor-sense: ${corners(car, (corner) => (car.sensor[corner].gain > 0 ? 'rising' : 'falling'))}`,
          '  sensor-gain: equal',
        ]
      : []),
    ...(car.known.heights ? ['  heights:', ...car.fitted.map(pair)] : []),
    ...(car.known.band
      ? [
          '  service-data:',
          '    - {check: position-signals/ride-band, between: [2.00 V, 3.00 V], source: workshop manual}',
        ]
      : []),
  ];
};

/** A job file as a technician types it. */
export const jobText = (number: number, car: Car, by: Instruments, depth: Depth): string => {
  const shots =
    depth === 'full sheet'
      ? [
          ...nightAtRest(car, by).filter(({ readings }) => readings.length > 0),
          network(car, by),
          keyOn(car, by, depth),
          cranking(car, by),
          running(car, by, depth),
          ...pumping(car, by),
        ]
      : [keyOn(car, by, depth), cranking(car, by), running(car, by, depth)];
  return `${[
    'worksheet: 1',
    `job: F${String(number).padStart(5, '0')}`,
    'title: One vehicle of a simulated fleet',
    'opened: 2026-03-02T20:30',
    'zone: UTC',
    'status: open',
    'vehicle:',
    `  name: Vehicle ${number}`,
    `  layout: ${car.layout}`,
    `  battery: ${car.battery.kind}`,
    '  charging: fixed',
    ...knownOf(car),
    'snapshots:',
    ...shots.map(shotText),
    'log:',
    '  - {at: 2026-03-03T08:00, did: completed, what: verify-complaint}',
  ].join('\n')}\n`;
};
