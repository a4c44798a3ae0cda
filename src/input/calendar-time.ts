const minute = 60_000;

/** An offset from UTC as a file states it, such as `Z`, `+01:00` or `-0330`, in milliseconds. */
export const offsetOf = (offset: string): number => {
  if (offset === 'Z') return 0;
  const ahead = (Number(offset.slice(1, 3)) * 60 + Number(offset.slice(-2))) * minute;
  return offset.startsWith('-') ? -ahead : ahead;
};

/**
 * A date and a clock time as milliseconds as if in UTC, or null where the calendar or the clock has no such. Their
 * form is known; a date library would look for all the forms that it knows, which for many files is time.
 *
 * @param date `YYYY-MM-DD`
 * @param clock `HH:MM`
 * @param seconds `:SS`, `:SS.sss` or nothing
 */
export const calendarTime = (date: string, clock: string, seconds: string): number | null => {
  const year = Number(date.slice(0, 4));
  const month = Number(date.slice(5, 7));
  const day = Number(date.slice(8));
  const hours = Number(clock.slice(0, 2));
  const minutes = Number(clock.slice(3));
  const whole = Number(seconds.slice(1, 3));
  if (hours > 23 || minutes > 59 || whole > 59) return null;
  // Not by `Date.UTC`, which takes the years before 100 for those of the last century.
  const midnight = new Date(0);
  midnight.setUTCFullYear(year, month - 1, day);
  if (midnight.getUTCMonth() !== month - 1 || midnight.getUTCDate() !== day) return null;
  const thousandths = Number(seconds.slice(4).padEnd(3, '0'));
  return midnight.getTime() + (hours * 60 + minutes) * minute + whole * 1000 + thousandths;
};
