// What somebody types who has a vehicle before them, as the benchmark counts it.

/** A complaint, and what else is known when the vehicle comes in. */
export const fresh = {
  command: 'cornerwise new s7.yaml',
  answers: {
    'vehicle,': 'Shuttle 7',
    'what the driver says': 'LR low in the morning',
    battery: '2',
    charging: '1',
  },
  /** What the file says then. */
  says: [
    'complaint: LR low in the morning',
    'symptoms: {where: LR, sits: low, when: after-standing}',
    'layout: four-corner-air',
    'battery: agm',
    'charging: fixed',
  ],
};

/** The readings of a vehicle as it came in: key on, cranking, running. */
export const asFound = [
  'cornerwise add s7.yaml key-on level empty 8C disabled maintainer=off sup=12.2 bat=12.31 ref=5.01 LF=2.48 RF=2.55 LR=1.12 RR=2.61 tank=96 lamp=on C3A21:signal-range',
  'cornerwise add s7.yaml cranking bat=10.4 -l',
  'cornerwise add s7.yaml running sup=14.0 bat=14.1 LF=2.48 RF=2.55 LR=1.12 RR=2.61 tank=98 lamp=on -l',
];

/** The same with every name in full, as it had to be typed before. */
export const asFoundInFull = [
  'cornerwise add s7.yaml key-on floor=level load=empty air=8C levelling=disabled maintainer=off supply=12.2 battery=12.31 reference=5.01 LF=2.48 RF=2.55 LR=1.12 RR=2.61 tank=96psi lamp=on code=C3A21:stored:signal-range',
  'cornerwise add s7.yaml cranking battery=10.4 --last',
  'cornerwise add s7.yaml running supply=14.0 battery=14.1 LF=2.48 RF=2.55 LR=1.12 RR=2.61 tank=98psi lamp=on --last',
];

/** The answers of a session of `fill` on a fresh job, by the beginning of their question. */
export const session = {
  floor: '1',
  load: '1',
  lamp: '2',
  'LF ': '2.48',
  'RF ': '2.55',
  'LR ': '2.51',
  'RR ': '2.61',
  supply: '12.2',
  code: 'none',
  battery: '12.31',
  tank: '96',
  // Asked twice: the second time what was said shows, and Enter keeps it.
  air: ['8', ''],
};

/** Of a job that is full of readings: conditions by their numbers, volts and pressures. */
export const longSession = {
  floor: '1',
  load: '1',
  rested: '9',
  'air-system': '1',
  air: '8',
  'heights-from': '2',
  battery: '12.31',
  tank: '96',
  height: '412',
  'plug-signal': '2.48',
  'pin-signal': '2.48',
  spring: '61',
  reference: '5.01',
  supply: '12.2',
};
