import { tankAfter, timedFrom, timedRun } from '../model/air.ts';
import { codesOf } from '../model/codes.ts';
import { commanded, outcomeOfCommand } from '../model/command.ts';
import { levellingOf } from '../model/levelling.ts';
import { boots, groundAtPlug, plugSupply } from '../model/rails.ts';
import { signalOf } from '../model/signals.ts';
import { cooler, night } from '../model/stand.ts';
import { moduleSupply, postVolts, type Running } from '../model/supply.ts';
import type { Car } from '../model/vehicle.ts';
import {
  airAt,
  atCorners,
  braces,
  type Entry,
  positions,
  type Shot,
  signalText,
  silent,
  tankText,
  tapes,
  type Visit,
} from './shot.ts';

/** How much is typed: a first look with scan tool and a meter at the battery, or all that the packs have channels for. */
export type Depth = 'first look' | 'full sheet';

const supplies = ({ car, by }: Visit, state: Running): Entry[] => [
  ['supply', boots(car) ? by.read('module', moduleSupply(car, state).shown) : silent],
  ['battery', by.read('meter', postVolts(car, state))],
];

const standing = ({ car, habits }: Visit, depth: Depth): Entry[] => [
  ['floor', 'level'],
  ['load', 'empty'],
  ['air', airAt(car, 'morning')],
  ['levelling', levellingOf(car)],
  ...(depth === 'full sheet' || habits.notesMode ? [['mode', car.levelling.mode] as const] : []),
];

/** What the meter adds with the key on, plugs and pins within reach. */
const atThePlugs = (visit: Visit): Entry[] => {
  const { car, by, rails, stand } = visit;
  const at = (where: 'plug' | 'pin', jump: 'plugJump' | 'jump'): string =>
    atCorners(visit, (corner) => {
      const signal = signalOf(car, corner, stand['key-on'].wheel, rails);
      return signalText('meter', signal[where], signal[jump], by);
    });
  return [
    ['reference', atCorners(visit, (corner) => by.read('meter', plugSupply(car, corner, rails)))],
    ['plug-signal', at('plug', 'plugJump')],
    ['pin-signal', at('pin', 'jump')],
    ['sensor-ground-drop', atCorners(visit, (corner) => by.read('meter', groundAtPlug(car, corner, rails)))],
  ];
};

const codeText = (car: Car): string =>
  `[${codesOf(car)
    .map(({ code, means, at, in: stored }) =>
      braces([
        ['code', code],
        ['status', 'stored'],
        ['means', means],
        ...(at ? [['at', at] as const] : []),
        ...(stored ? [['in', stored] as const] : []),
      ]),
    )
    .join(', ')}]`;

export const keyOn = (visit: Visit, depth: Depth): Shot => {
  const { car, by, habits, stand } = visit;
  const full = depth === 'full sheet';
  const psi = tankAfter(car, night, cooler);
  return {
    id: 'as-found',
    at: '2026-03-03T08:10',
    state: 'key-on',
    conditions: [...standing(visit, depth), ['maintainer', 'off'], ['heights-from', 'wheel-centre']],
    readings: [
      ...supplies(visit, 'key-on'),
      ['position', positions(visit, stand['key-on'])],
      ['tank', tankText(visit, psi)],
      ...(full ? [['tank-gauge', by.read('gauge', psi)] as const, ...atThePlugs(visit)] : []),
      ...(full ? [['pin-supply', by.read('meter', moduleSupply(car, 'key-on').pins)] as const] : []),
      ...(full || habits.tapesFirst
        ? [['height', tapes(visit, stand['key-on'], 'wheel-centre')] as const]
        : []),
    ],
    more: [
      `lamp: ${codesOf(car).some((code) => code.in !== 'other') ? 'on' : 'off'}`,
      `codes: ${codeText(car)}`,
    ],
  };
};

export const cranking = ({ car, by }: Visit): Shot => ({
  id: 'cranking',
  at: '2026-03-03T08:20',
  state: 'cranking',
  conditions: [['air', airAt(car, 'morning')]],
  readings: [['battery', by.read('meter', postVolts(car, 'cranking'))]],
});

/** With the engine on; where everything is read under full load, and the idle raised. */
export const running = (visit: Visit, depth: Depth): Shot => {
  const { car, by, habits, stand } = visit;
  const full = depth === 'full sheet';
  const loaded = full && habits.notesLoad;
  const state = loaded ? 'loaded' : 'running';
  const supply = moduleSupply(car, state);
  return {
    id: 'running',
    at: '2026-03-03T08:30',
    state: 'running',
    conditions: [
      ...standing(visit, depth),
      ...(loaded
        ? ([
            ['idle', 'raised'],
            ['heavy-load', 'on'],
          ] as const)
        : []),
    ],
    readings: [
      ...supplies(visit, state),
      ...(car.known.temperature ? [['battery-temperature', by.read('thermometer', car.air)] as const] : []),
      ['position', positions(visit, stand.running)],
      ...(full
        ? ([
            ['pin-supply', by.read('meter', supply.pins)],
            ['pin-ground', by.read('meter', supply.groundDrop)],
            ['feed-drop', by.read('meter', supply.feedDrop)],
            ['ground-drop', by.read('meter', supply.groundDrop)],
            ['charging-ripple', by.fine(car.charging.ripple, 3, 'V')],
          ] as const)
        : []),
    ],
  };
};

/** Three readings while the compressor fills a tank that was let down, with the clamp and the meter on its plug. */
export const pumping = ({ car, by }: Visit): Shot[] => {
  if (car.layout !== 'four-corner-air' || !boots(car)) return [];
  return timedRun(car, timedFrom(car), 2).map(({ psi, volts, amps }, minutes) => ({
    id: `pumping-${minutes + 1}`,
    at: `2026-03-03T08:4${minutes}:00`,
    state: 'running',
    conditions: [
      ['compressor', 'on'],
      ['air', airAt(car, 'morning')],
    ],
    readings: [
      ['tank', by.read('shown-pressure', psi * car.pressureSensor.gain + car.pressureSensor.offset)],
      ['battery', by.read('meter', postVolts(car, 'running'))],
      ['compressor-supply', by.read('meter', volts)],
      ['compressor-current', by.read('clamp', amps)],
    ],
  }));
};

/** Tape and signals after a command to lower and one to raise, and what the command came to. */
export const onCommand = (
  visit: Visit,
): { readonly shots: readonly Shot[]; readonly log: readonly string[] } => {
  const { car, habits } = visit;
  if (!habits.commands || !boots(car)) return { shots: [], log: [] };
  const { low, high } = commanded(car);
  const shot = (id: string, at: string, stand: typeof low): Shot => ({
    id,
    at,
    state: 'key-on',
    conditions: [
      ['levelling', 'disabled'],
      ...(car.levelling.mode === 'normal' ? [['mode', id] as const] : []),
      ['heights-from', 'wheel-centre'],
    ],
    readings: [
      ['position', positions(visit, stand)],
      ['height', tapes(visit, stand, 'wheel-centre')],
    ],
  });
  return {
    shots: [shot('lowered', '2026-03-03T07:45', low), shot('raised', '2026-03-03T07:52', high)],
    log: [
      `  - {at: 2026-03-03T07:50, did: tested, what: raise-lower-command, found: ${outcomeOfCommand(car)}}`,
    ],
  };
};
