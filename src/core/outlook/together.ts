import { type Axle, axleOf, axles, type Corner } from '../corner.ts';
import type { Finding } from '../finding.ts';
import type { BriefWorksheet } from '../worksheet.ts';
import type { CornerReading, CornerStandings } from './corner-standing.ts';
import type { CornerWord } from './corner-word.ts';

/** What signals and tape of the four corners say together. */
export type Together =
  /** A check holds one against the other, and has words for it. */
  | { readonly kind: 'told'; readonly findings: readonly Finding[] }
  /** Signal and tape are both off there, and no check holds one against the other. */
  | { readonly kind: 'both-off'; readonly axles: readonly Axle[] }
  | { readonly kind: 'body-only'; readonly corners: readonly Corner[]; readonly word: CornerWord }
  /** Signals that are off, with no tape, or with one that shows nothing. */
  | {
      readonly kind: 'signal-only';
      readonly corners: readonly Corner[];
      readonly word: CornerWord;
      readonly tape: 'none' | 'even' | 'old';
    }
  | { readonly kind: 'jumps'; readonly corners: readonly Corner[] }
  | { readonly kind: 'sinks'; readonly corners: readonly Corner[] }
  | { readonly kind: 'even'; readonly tape: boolean; readonly unread: readonly Corner[] }
  | { readonly kind: 'old' }
  | { readonly kind: 'nothing' };

/** Kinds of checks that hold signal and tape against each other, the most telling first. */
const comparing = ['moves-together', 'signal-against-tape', 'height-agreement'];

const off: ReadonlySet<CornerWord> = new Set(['low', 'high', 'lower']);

const isNow = ({ verdict, current }: Finding): boolean => verdict === 'out' && current;

const toldBy = ({ findings }: BriefWorksheet): readonly Finding[] =>
  comparing
    .map((kind) => findings.filter((one) => one.kind === kind && isNow(one) && one.words !== null))
    .find((some) => some.length > 0) ?? [];

const isOff = (one: CornerReading | null): one is CornerReading => one !== null && off.has(one.word);

/** Corners of one word together, the word of the first. */
const alike = (
  standings: CornerStandings,
  of: 'signal' | 'tape',
): { readonly corners: readonly Corner[]; readonly word: CornerWord } | null => {
  const found = standings.corners.filter((one) => isOff(one[of]));
  const own = found.find((one) => one[of]?.word === 'low' || one[of]?.word === 'high');
  const word = (own ?? found[0])?.[of]?.word;
  if (word === undefined) return null;
  return { corners: found.filter((one) => one[of]?.word === word).map(({ corner }) => corner), word };
};

const tapeOf = ({ corners }: CornerStandings, some: readonly Corner[]): 'none' | 'even' | 'old' => {
  const axlesOff = new Set(some.map(axleOf));
  const own = [...axlesOff].flatMap((axle) => axles[axle]);
  const read = corners.filter(({ corner }) => own.includes(corner)).map(({ tape }) => tape);
  if (read.some((one) => one === null || one.reading.kind === 'untaken')) return 'none';
  return read.every((one) => one?.word === 'ok') ? 'even' : 'old';
};

const sinking = ({ findings }: BriefWorksheet): Corner[] =>
  findings
    .filter((one) => one.kind === 'height-loss' && isNow(one) && one.side === 'high')
    .map(({ subject }) => subject as Corner);

/** One sentence about the four corners: what signals and tape say together, as data. */
export const together = (sheet: BriefWorksheet, standings: CornerStandings): Together => {
  const told = toldBy(sheet);
  if (told.length > 0) return { kind: 'told', findings: told };
  const jumping = standings.corners.filter(({ signal }) => signal?.word === 'jumps');
  if (jumping.length > 0) return { kind: 'jumps', corners: jumping.map(({ corner }) => corner) };
  const sinks = sinking(sheet);
  if (sinks.length > 0) return { kind: 'sinks', corners: sinks };
  const [signal, tape] = [alike(standings, 'signal'), alike(standings, 'tape')];
  if (signal && tape) {
    const byTape = new Set(tape.corners.map(axleOf));
    const both = [...new Set(signal.corners.map(axleOf))].filter((axle) => byTape.has(axle));
    if (both.length > 0) return { kind: 'both-off', axles: both };
  }
  if (signal) return { kind: 'signal-only', ...signal, tape: tapeOf(standings, signal.corners) };
  if (tape) return { kind: 'body-only', ...tape };
  const fitted = standings.corners.filter(({ isFitted }) => isFitted);
  const isRead = ({ signal: own }: (typeof fitted)[number]): boolean =>
    own !== null && own.word !== 'not-read';
  const read = fitted.filter(isRead);
  if (read.length === 0) return { kind: 'nothing' };
  if (read.every(({ signal: own }) => own?.word === 'old')) return { kind: 'old' };
  const unread = fitted.filter((one) => !isRead(one)).map(({ corner }) => corner);
  return { kind: 'even', tape: fitted.every((one) => one.tape?.word === 'ok'), unread };
};
