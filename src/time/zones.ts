import { FixedOffsetZone, IANAZone, Settings, Zone, type ZoneOffsetFormat } from 'luxon';
import { clockBefore, type ZoneClock } from './clock.ts';

const minute = 60_000;

// Nothing is said in the words of a language; finding out the machine's takes longer than all else of a short call.
Settings.defaultLocale = 'en-US';

/** The date library's: right everywhere, but the first question takes longer than all else that a short call does. */
export const libraryClock: ZoneClock = {
  isZone: (name) => IANAZone.isValidZone(name),
  offsetAt: (zone, at) => Math.round(IANAZone.create(zone).offset(at) * minute),
};

let clock: ZoneClock | null = null;

/** It is chosen with the first question, since whoever starts the program may name another. */
const inUse = (): ZoneClock => {
  clock ??= clockBefore(libraryClock);
  return clock;
};

/** Milliseconds that a zone's clocks are ahead of UTC at an instant. */
export const offsetAt = (zone: string, at: number): number =>
  zone === 'UTC' ? 0 : inUse().offsetAt(zone, at);

/** Zones that were found, where looking one up takes longer than reading the rest of a job. */
const foundZones = new Set(['UTC']);

/** Whether the zone database knows a zone. */
export const isZone = (zone: string): boolean => {
  if (foundZones.has(zone)) return true;
  const found = inUse().isZone(zone);
  if (found) foundZones.add(zone);
  return found;
};

/** With the clock in use behind it. */
class ClockZone extends Zone {
  readonly #name: string;

  constructor(name: string) {
    super();
    this.#name = name;
  }

  override get type(): string {
    return 'clock';
  }

  override get name(): string {
    return this.#name;
  }

  override get isUniversal(): boolean {
    return false;
  }

  override get isValid(): boolean {
    return isZone(this.#name);
  }

  override offset(at: number): number {
    return offsetAt(this.#name, at) / minute;
  }

  override offsetName(): null {
    return null;
  }

  override formatOffset(at: number, format: ZoneOffsetFormat): string {
    return FixedOffsetZone.instance(this.offset(at)).formatOffset(at, format);
  }

  override equals(other: Zone): boolean {
    return other instanceof ClockZone && other.name === this.#name;
  }
}

/** A zone as the date library wants it. */
export const zoneNamed = (name: string): Zone => new ClockZone(name);
