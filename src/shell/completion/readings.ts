import { corners } from '../../core/corner.ts';
import { conditionWords, lampStates } from '../../core/job.ts';
import { keyOf } from '../../core/key.ts';
import type { Channel, Pack } from '../../core/pack.ts';
import { type Candidate, candidate } from './candidate.ts';

/** The channel whose corners are typed most, so that they stand for themselves. */
const bareCorners = 'position';

const ofChannel = ({ id, per, title, unit }: Channel): Candidate[] => {
  const whole = candidate(`${id}=`, `${title}, ${unit}`);
  if (per === 'vehicle') return [whole];
  const each = corners.map((corner) =>
    candidate(`${id === bareCorners ? corner : keyOf(id, corner)}=`, `${title} ${corner}, ${unit}`),
  );
  return per === 'either' ? [whole, ...each] : each;
};

/** Names whose values are words from a closed list. */
const choices: Readonly<Record<string, readonly string[]>> = { ...conditionWords, lamp: lampStates };

const measured = [
  candidate('air=', 'temperature of the air, °C'),
  candidate('rested=', 'since the key went off and the charger stopped, h'),
  candidate('asleep=', 'since every module went to sleep, such as 40min'),
  candidate('barometer=', 'pressure of the air, kPa'),
  candidate('altitude=', 'height above the sea, m'),
];

const names = (packs: readonly Pack[]): Candidate[] => [
  ...packs.flatMap((pack) => pack.channels).flatMap(ofChannel),
  candidate('lamp=', 'warning lamp'),
  candidate('code=', 'a trouble code'),
  ...Object.entries(conditionWords).map(([name, words]) => candidate(`${name}=`, words.join(', '))),
  ...measured,
];

/**
 * What may follow in a line of readings: names with `=`, and after it the words where there is a list of them.
 *
 * @param given the readings that the line has already; none is taken twice but codes
 */
export const readingCandidates = (
  packs: readonly Pack[],
  given: readonly string[],
  typed: string,
): Candidate[] => {
  const equals = typed.indexOf('=');
  if (equals >= 0) {
    const name = typed.slice(0, equals);
    return Object.hasOwn(choices, name)
      ? (choices[name] ?? []).map((word) => candidate(`${name}=${word}`))
      : [];
  }
  const taken = new Set(given.map((word) => word.slice(0, word.indexOf('=') + 1)));
  return names(packs).filter(({ value }) => value === 'code=' || !taken.has(value));
};
