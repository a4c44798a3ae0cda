import type { Closing, State } from '../../core/job.ts';
import { parseKey } from '../../core/key.ts';
import type { Now, NowTitle } from '../../core/now/now.ts';
import { reasonLines } from '../sheet/hold-points.ts';
import { actsText, statedWords } from './danger-words.ts';

const stateWords: Readonly<Record<State, string>> = {
  rest: 'at rest, key off',
  'key-on': 'key on, engine off',
  cranking: 'while cranking',
  running: 'engine running',
  driving: 'while driving',
};

const closingWords: Readonly<Record<Closing, string>> = {
  repaired: 'repaired',
  declined: 'declined',
  'passed-on': 'passed on',
  towed: 'towed away',
  scrapped: 'scrapped',
};

/** Corners of one channel in one breath: `position LF, RF, LR`. */
const thingsText = (things: readonly string[]): string => {
  const byBase = new Map<string, string[]>();
  for (const key of things) {
    const { base, corner, axle } = parseKey(key);
    const places = byBase.get(base) ?? [];
    const place = corner ?? axle;
    byBase.set(base, place === null ? places : [...places, place]);
  }
  return [...byBase]
    .map(([base, places]) => (places.length === 0 ? base : `${base} ${places.join(' ')}`))
    .join(', ');
};

type Say = { readonly [K in NowTitle['kind']]: (title: Extract<NowTitle, { readonly kind: K }>) => string };

const titleWords: Say = {
  given: ({ text }) => text,
  again: ({ text }) => `Again, since the work: ${text}`,
  danger: ({ danger, title, forbids }) => {
    const what = statedWords[danger] ?? title ?? danger;
    return danger === 'shared-with-brakes'
      ? `Stop: ${what}. These packs do not apply; qualified people only`
      : `Stop: ${what}. Do not ${actsText(forbids)}`;
  },
  'read-again': ({ what, with: instrument }) =>
    `Read ${thingsText(what.split(', '))} again${instrument === null ? '' : `, with another instrument: ${instrument} may be wrong`}`,
  despite: ({ entry }) => `Say why it is in the log, and who decided it: ${entry}`,
  read: ({ state, things }) => `Read ${thingsText(things)} (${stateWords[state]})`,
  state: ({ conditions, snapshot }) => `Say how it stood at ${snapshot}: ${conditions.join(', ')}`,
  'state-vehicle': ({ facts }) => `State the vehicle's ${facts.join(', ')} in the job file`,
  decide: ({ about }) =>
    about.length === 0
      ? 'Decide: pass the vehicle on, or decline the work'
      : `Decide about ${about.join(', ')}: pass the vehicle on, decline the repair, or accept it with a reason`,
  'pass-on': () => 'Pass the vehicle on to people who are qualified for its brakes',
  authorise: ({ amount, currency, about }) =>
    amount === null
      ? 'Have the cost authorised'
      : `Have ${about ? 'about ' : ''}${amount}${currency === null ? '' : ` ${currency}`} authorised`,
  order: ({ part }) => `Order the ${part}`,
  'buy-access': ({ capability, equipment, amount, currency, again }) => {
    const price = amount === null ? '' : `, ${amount}${currency === null ? '' : ` ${currency}`}`;
    return `Buy access for ${capability}${equipment === null ? '' : ` (${equipment})`}${again ? ' again' : ''}${price}`;
  },
  wait: ({ what, whom }) => `Wait for the ${what}${whom === null ? '' : `: ${whom}`}`,
  repair: ({ part, isPart }) => (isPart ? `Replace or repair the ${part}` : `Repair the ${part}`),
  close: ({ closing }) =>
    closing === null ? 'Close the job, and say how it ended' : `Close the job as ${closingWords[closing]}`,
  closed: ({ closing }) =>
    closing === null
      ? 'Nothing: the job is closed'
      : `Nothing: the job is closed as ${closingWords[closing]}`,
};

/** What to do now, in words. */
export const nowTitle = ({ title }: Now): string =>
  (titleWords[title.kind] as (title: NowTitle) => string)(title);

/** Why, in words, the most telling first. */
export const nowReasons = ({ because }: Now, zone: string): string =>
  reasonLines(because, zone, true).join('; ');
