import { conditionWords, lampStates } from '../../core/job.ts';
import type { Channel } from '../../core/pack.ts';
import { doubtOf } from '../../core/readings/doubt.ts';
import type { Instrument } from '../../core/readings/instruments.ts';
import { isOpen } from '../../core/readings/parse-quantity.ts';
import { impossible } from '../../core/readings/possible.ts';
import { quantityOf } from '../../core/readings/units.ts';
import { braces, brackets, type Pair, text, type Value } from '../edit/value.ts';
import { hasLeads } from '../job/read-leads.ts';
import { quoted } from '../quoted.ts';
import { didYouMean } from '../suggest.ts';
import { doubted, doubtedSpan, insistedOn, right, type Typed, wrong } from './typed.ts';
import { type Quantity, typedQuantity, withShownDigits } from './typed-quantity.ts';
import { longest, typedText } from './typed-text.ts';

/** A reading as it is written into a file, and in words. */
export interface TypedReading {
  readonly value: Value;
  /** `2.48 V`, `0.90 V to 2.60 V, jumping`, `not taken: plug seized`. */
  readonly echo: string;
}

/** Answers to other questions: one in the place of a reading is a slip, or a script that is out of step. */
const answers: ReadonlySet<string> = new Set([
  ...Object.values(conditionWords).flat(),
  ...lampStates,
  // What programs write where they have no number.
  ...['nan', 'inf', 'infinity', 'null', 'none', 'undefined', 'true', 'false'],
]);

/** Words, so a reason why there is no reading: it begins with a word, and one of its words has three letters. */
const isReason = (typed: string): boolean =>
  !answers.has(typed.toLowerCase()) &&
  /^\p{L}+(?:[\s,;:!?/-]|\.(?!\.)|$)/u.test(typed) &&
  /\p{L}{3}/u.test(typed) &&
  // "about 12" is a reading, and not said well.
  !/\s[\d.,]+$/u.test(typed);

/** `12.3@meter`: read with another instrument than usual. */
const byInstrument = (
  typed: string,
  instruments: readonly Instrument[],
): Typed<{ rest: string; by: Instrument | null }> => {
  const at = typed.lastIndexOf('@');
  if (at < 0) return right({ rest: typed, by: null });
  const name = typed.slice(at + 1).trim();
  const by = instruments.find((one) => one.name.toLowerCase() === name.toLowerCase());
  if (by) return right({ rest: typed.slice(0, at).trim(), by });
  const known = instruments.map((one) => one.name);
  if (name === '') return wrong(typed, 'no instrument is named after the @', `it can be ${known.join(', ')}`);
  return wrong(typed, `no instrument is called ${quoted(name)}`, didYouMean(name, known));
};

/** A channel, and whether whoever types says that the reading is right, however strange it looks. */
interface Wanted extends Pick<Channel, 'id' | 'unit' | 'possible'> {
  readonly insists: boolean;
  /** All that was typed. */
  readonly whole: string;
}

/** A quantity of a channel that can be, or that somebody insists on. */
const typedValue = (typed: string, { id, unit, possible, insists, whole }: Wanted): Typed<Quantity> => {
  const read = typedQuantity(typed, unit);
  if (!read.ok) return read;
  const fault = impossible(read.value.value, unit, possible);
  if (fault) return wrong(typed, fault.message, fault.hint);
  const doubt = insists ? null : doubtOf(read.value.number, read.value.unit, id, unit);
  return doubt ? doubted(whole, doubt) : read;
};

/** Several quantities with one unit: that of the last serves those that have none. */
const quantities = (
  parts: readonly string[],
  channel: Wanted,
  shows: Instrument['shows'],
): Typed<Quantity[]> => {
  const last = parts.at(-1)?.trim() ?? '';
  const unit = /[^\d.,\s+\u2212-].*$/u.exec(last)?.[0] ?? '';
  const read: Quantity[] = [];
  for (const part of parts) {
    const own = part.trim();
    const one = typedValue(/[^\d.,\s+\u2212-]/u.test(own) ? own : `${own} ${unit}`.trim(), channel);
    if (!one.ok) return one;
    read.push(withShownDigits(one.value, shows));
  }
  return right(read);
};

const several = (
  parts: readonly string[],
  channel: Wanted,
  by: Instrument | null,
  own: Instrument['shows'],
  typed: string,
): Typed<TypedReading> => {
  if (by) {
    return wrong(typed, 'repeats are read with the usual instrument', 'leave out the @ and the name');
  }
  const read = quantities(parts, channel, own);
  if (!read.ok) return read;
  return right({
    value: brackets(read.value.map((one) => text(one.text))),
    echo: `${read.value.map((one) => one.text).join(', ')}, repeats`,
  });
};

const span = (
  low: string,
  high: string,
  channel: Wanted,
  by: Instrument | null,
  shows: Instrument['shows'],
  typed: string,
): Typed<TypedReading> => {
  const read = quantities([low, high], channel, shows);
  if (!read.ok) return read;
  const [a, b] = read.value;
  if (!a || !b) return wrong(typed, 'this is half of a jumping signal', 'write 0.9..2.6');
  const falls = a.value.value > b.value.value;
  if (falls && !channel.insists) return doubtedSpan(channel.whole, high, low);
  const [bottom, top] = falls ? [b, a] : [a, b];
  const with_ = by ? ([['by', text(by.name)]] as const) : [];
  return right({
    value: braces([['low', text(bottom.text)], ['high', text(top.text)], ...with_]),
    echo: `${bottom.text} to ${top.text}, jumping`,
  });
};

/** Why there is no reading, in words that are taken as they are. */
export const typedReason = (typed: string): Typed<TypedReading> => {
  const why = typedText(typed);
  return why.ok ? right({ value: braces([['why', text(why.value)]]), echo: `not taken: ${why.value}` }) : why;
};

/** Half of a jumping signal, half of repeats, and the usual shrugs. */
const unfinished = (rest: string, typed: string, { unit }: Channel): Typed<TypedReading> | null => {
  if (/^\.\.|\.\.$/u.test(rest)) return wrong(typed, 'this is half of a jumping signal', 'write 0.9..2.6');
  if (/^\/|\/$/u.test(rest)) return wrong(typed, 'a repeat is missing here', 'write 2.48/2.50/2.49');
  return /^[^\p{L}]*\d/u.test(rest)
    ? null
    : wrong(
        typed,
        `${quoted(rest)} is not a reading`,
        `write a number, such as 2.48 ${unit}, or words that say why there is none`,
      );
};

const leadsForm = /^(?<reading>.*?\d.*?)\s+from\s+(?<from>\S.*?)\s+to\s+(?<to>\S.*)$/iu;

/** `0.3V from battery minus to pin 31`: a reading with the places of both leads. */
const withLeads = (
  typed: string,
  channel: Channel,
  instruments: readonly Instrument[],
  insists: boolean,
): Typed<TypedReading> | null => {
  const { reading, from, to } = leadsForm.exec(typed)?.groups ?? {};
  if (reading === undefined || from === undefined || to === undefined) return null;
  if (!hasLeads(channel)) {
    return wrong(typed, `${channel.id} is not read between two leads`, 'leave out from … to …');
  }
  const read = typedReading(insists ? `${reading}!` : reading, channel, instruments);
  const ends = [typedText(from, typed, longest.name), typedText(to, typed, longest.name)];
  const fault = [read, ...ends].find((one) => !one.ok);
  if (!read.ok || fault?.ok === false) return fault?.ok === false ? fault : null;
  const { value, echo } = read.value;
  if (value.kind === 'list') {
    return wrong(typed, 'repeats are written without the places of the leads', 'leave out from … to …');
  }
  const own: readonly Pair[] = value.kind === 'map' ? value.entries : [['value', value]];
  const at: Pair = [
    'at',
    braces([
      ['from', text(from)],
      ['to', text(to)],
    ]),
  ];
  return right({ value: braces([...own, at]), echo: `${echo}, from ${from} to ${to}` });
};

/**
 * A reading as typed: `2.48`, `2,48 V`, repeats `2.48/2.50/2.49`, a jumping signal `0.9..2.6`, another instrument
 * `12.3@meter`, both leads `0.3 V from battery minus to pin 31`, or words that say why it could not be taken. A reading
 * that nobody would believe is doubted, unless `!` stands behind it.
 */
export const typedReading = (
  typed: string,
  channel: Channel,
  instruments: readonly Instrument[],
): Typed<TypedReading> => {
  const { text: own, insists } = insistedOn(typed);
  if (own === '')
    return wrong(
      typed,
      'nothing is typed here',
      `write a number, such as 2.48 ${channel.unit}, or why there is none`,
    );
  if (isReason(own)) return typedReason(own);
  const between = withLeads(own, channel, instruments, insists);
  if (between) return between;
  const wanted = { id: channel.id, unit: channel.unit, possible: channel.possible, insists, whole: own };
  const instrument = byInstrument(own, instruments);
  if (!instrument.ok) return instrument;
  const { rest, by } = instrument.value;
  const shows = (by ?? instruments.find(({ name }) => name === channel.by))?.shows ?? null;
  const half =
    isOpen(rest) && quantityOf(channel.unit) === 'resistance' ? null : unfinished(rest, typed, channel);
  if (half) return half;
  const ends = /^(.*?\d.*?)\s*\.\.\s*(.+)$/u.exec(rest);
  if (ends) return span(ends[1] ?? '', ends[2] ?? '', wanted, by, shows, typed);
  const repeats = rest.split(/\/(?=\s*[+-]?\d)/u);
  if (repeats.length > 1) return several(repeats, wanted, by, shows, typed);
  const one = typedValue(rest, wanted);
  if (!one.ok) return one;
  const { text: written } = withShownDigits(one.value, shows);
  return right(
    by
      ? {
          value: braces([
            ['value', text(written)],
            ['by', text(by.name)],
          ]),
          echo: `${written} by ${by.name}`,
        }
      : { value: text(written), echo: written },
  );
};
