import type { Closing, State } from '../../core/job.ts';
import type { Now, NowTitle } from '../../core/now/now.ts';
import { reasonLines } from '../sheet/hold-points.ts';
import { actsText, statedWords } from './danger-words.ts';
import { keysText } from './key-words.ts';

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
  'cannot-be': ({ what, snapshot, read, meant }) =>
    `Correct ${what} of ${snapshot}: ${read} cannot be${meant.length > 0 ? ` (${meant.join(' or ')}?)` : ''}`,
  'read-again': ({ what, with: instrument }) =>
    `Read ${keysText(what.split(', '))} again${instrument === null ? '' : `, with another instrument: ${instrument} may be wrong`}`,
  despite: ({ entry }) => `Say why it is in the log, and who decided it: ${entry}`,
  read: ({ state, things }) => `Read ${keysText(things)} (${stateWords[state]})`,
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
