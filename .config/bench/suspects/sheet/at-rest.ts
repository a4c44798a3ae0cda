import { axleOf } from '../../../../src/core/corner.ts';
import { tankAfter } from '../model/air.ts';
import { hoursOf, type Moment, warmingAt } from '../model/stand.ts';
import { restingVolts } from '../model/supply.ts';
import { airAt, atCorners, type Entry, type Shot, tankText, tapes, type Visit } from './shot.ts';

/** Who has the maker's heights measures as the maker does; others measure from the floor, which needs no wheel. */
const baseOf = ({ car }: Visit): 'wheel-centre' | 'floor' => (car.known.targets ? 'wheel-centre' : 'floor');

const restConditions = (visit: Visit, moment: Moment): Entry[] => [
  ['floor', 'level'],
  ['load', 'empty'],
  ['levelling', 'disabled'],
  ['air-system', 'closed'],
  ['heights-from', baseOf(visit)],
  ['air', airAt(visit.car, moment)],
];

/** The evening, late, and the morning of a night at rest: tape and tank, and in the morning the meter at the battery. */
export const nightAtRest = (visit: Visit): Shot[] => {
  const { car, by } = visit;
  const moments = [
    { moment: 'evening', at: '2026-03-02T21:00' },
    { moment: 'late', at: '2026-03-03T01:00' },
    { moment: 'morning', at: '2026-03-03T07:00' },
  ] as const;
  return moments
    .map(({ moment, at }): Shot => {
      const isMorning = moment === 'morning';
      const tank = tankAfter(car, hoursOf[moment], warmingAt(moment));
      return {
        id: moment,
        at,
        state: 'rest',
        conditions: [...restConditions(visit, moment), ...(isMorning ? [['rested', '10 h'] as const] : [])],
        readings: [
          ...(car.layout === 'four-corner-air' ? [['tank', tankText(visit, tank)] as const] : []),
          // Nobody gets up at one o'clock to lay a tape; the pressure is logged.
          ...(moment === 'late'
            ? []
            : [['height', tapes(visit, visit.stand[moment], baseOf(visit))] as const]),
          ...(isMorning ? [['battery', by.read('meter', restingVolts(car))] as const] : []),
        ],
      };
    })
    .filter(({ readings }) => readings.length > 0);
};

/** psi in a spring of an axle with the body level and empty, and what a millimetre less than it wants to stand takes. */
const nominalPsi = { front: 88, rear: 74 };
const perMm = 1 / 180;

/** Spring pressures: what a spring carries, and what a rigid body puts on it by holding it off its own length. */
const springPressures = (visit: Visit): string => {
  const { springs, wheel } = visit.stand.morning;
  return atCorners(visit, (corner) => {
    const pushed = (springs[corner] - wheel[corner]) * perMm;
    return visit.by.read('gauge', Math.max(0, nominalPsi[axleOf(corner)] * (1 + pushed)));
  });
};

/** Before anybody opened a door: what flows asleep, the network, the dampers' coils and the tyres. */
export const beforeTheKey = (visit: Visit): Shot[] => {
  const { car, by, habits } = visit;
  return [
    {
      id: 'asleep',
      at: '2026-03-03T07:20',
      state: 'rest',
      conditions: [['asleep', '40 min']],
      readings: [
        ['standing-current', by.fine(car.standingAmps, 3, 'A')],
        ['network-resistance', by.ohms(car.network)],
      ],
    },
    {
      id: 'wheels',
      at: '2026-03-03T07:30',
      state: 'rest',
      conditions: [['floor', 'level']],
      readings: [
        ['tyre', atCorners(visit, (corner) => by.read('tape', car.height[corner].wheel + car.tyre[corner]))],
        ...(car.layout === 'four-corner-air'
          ? [['damper', atCorners(visit, (corner) => by.ohms(car.damper[corner].ohms))] as const]
          : []),
        ...(habits.gaugesSprings ? [['spring', springPressures(visit)] as const] : []),
      ],
    },
  ];
};
