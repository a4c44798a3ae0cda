const minute = 60_000;

/** An offset from UTC as a file states it, such as `Z`, `+01:00` or `-0330`, in milliseconds. */
export const offsetOf = (offset: string): number => {
  if (offset === 'Z') return 0;
  const ahead = (Number(offset.slice(1, 3)) * 60 + Number(offset.slice(-2))) * minute;
  return offset.startsWith('-') ? -ahead : ahead;
};

const twoDigits = (text: string, at: number): number =>
  (text.charCodeAt(at) - 0x30) * 10 + text.charCodeAt(at + 1) - 0x30;

const isLeap = (year: number): boolean => year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);

const daysIn = (year: number, month: number): number => {
  if (month === 2) return isLeap(year) ? 29 : 28;
  return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
};

/**
 * Days from 1970-01-01 to a date of the Gregorian calendar, which also holds for the years before it was brought in.
 * The year is begun in March, so that a leap day is its last.
 */
const daysTo = (year: number, month: number, day: number): number => {
  const y = month > 2 ? year : year - 1;
  const monthsSinceMarch = (month + 9) % 12;
  const daysSinceMarch = Math.floor((153 * monthsSinceMarch + 2) / 5) + day - 1;
  return y * 365 + Math.floor(y / 4) - Math.floor(y / 100) + Math.floor(y / 400) + daysSinceMarch - 719_468;
};

/**
 * A date and a clock time as milliseconds as if in UTC, or null where there is no such date or time. Their form is known
 * already; a date library would try every form that it knows, which is slow for many files.
 *
 * @param date `YYYY-MM-DD`
 * @param clock `HH:MM`
 * @param seconds `:SS`, `:SS.sss` or nothing
 */
export const calendarTime = (date: string, clock: string, seconds: string): number | null => {
  const year = twoDigits(date, 0) * 100 + twoDigits(date, 2);
  const month = twoDigits(date, 5);
  const day = twoDigits(date, 8);
  const hours = twoDigits(clock, 0);
  const minutes = twoDigits(clock, 3);
  const whole = seconds === '' ? 0 : twoDigits(seconds, 1);
  if (hours > 23 || minutes > 59 || whole > 59) return null;
  if (month < 1 || month > 12 || day < 1 || day > daysIn(year, month)) return null;
  const thousandths = seconds === '' ? 0 : Number(seconds.slice(4).padEnd(3, '0'));
  return daysTo(year, month, day) * 86_400_000 + (hours * 60 + minutes) * minute + whole * 1000 + thousandths;
};
