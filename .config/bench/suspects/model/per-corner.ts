import type { Axle, Corner } from '../../../../src/core/corner.ts';

export type PerCorner<T> = Readonly<Record<Corner, T>>;

/** One value a corner. */
export const perCorner = <T>(make: (corner: Corner) => T): PerCorner<T> => ({
  LF: make('LF'),
  RF: make('RF'),
  LR: make('LR'),
  RR: make('RR'),
});

/** The other corner of the same axle. */
export const pairOf = { LF: 'RF', RF: 'LF', LR: 'RR', RR: 'LR' } as const satisfies PerCorner<Corner>;

export type PerAxle<T> = Readonly<Record<Axle, T>>;
