/** Somebody who knows the clocks of the world's zones. */
export interface ZoneClock {
  /** Whether there is a zone of that name, such as Europe/Dublin. */
  readonly isZone: (name: string) => boolean;
  /** Milliseconds that a zone's clocks are ahead of UTC at an instant. */
  readonly offsetAt: (zone: string, at: number) => number;
}

/** A clock that may ask the date library's about what it does not know itself. */
export type ClockBefore = (library: ZoneClock) => ZoneClock;

let before: ClockBefore | null = null;

/** Has zones looked up by another clock before the library's; it must answer as that does. */
export const useClockBefore = (other: ClockBefore): void => {
  before = other;
};

/** The clock to ask. */
export const clockBefore = (library: ZoneClock): ZoneClock => before?.(library) ?? library;
