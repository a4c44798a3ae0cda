import { DateTime, FixedOffsetZone, IANAZone, type Zone } from 'luxon';

const minute = 60_000;

/** The zone of a name. UTC is known without the zone database, whose first use takes a sixth of a short call. */
const zoneOf = (name: string): Zone => (name === 'UTC' ? FixedOffsetZone.utcInstance : IANAZone.create(name));

/** Whether the zone database knows a zone of that name, such as Europe/Dublin. */
export const isZone = (name: string): boolean => zoneOf(name).isValid;

/** Milliseconds that a zone's clocks are ahead of UTC at an instant, in milliseconds since 1970. */
export const offsetAt = (zone: string, at: number): number => Math.round(zoneOf(zone).offset(at) * minute);

/** An instant as the date library holds it in a zone. Its locale is fixed, since finding the machine's takes long. */
export const dateTimeIn = (zone: string, at: number): DateTime =>
  DateTime.fromMillis(at, { zone: zoneOf(zone), locale: 'en-US' });
