import type { Gap, PlacedGap } from '../../core/proofs/gaps.ts';
import type { Suggestion } from '../../core/proofs/suggestion.ts';

/** What a pack's proofs leave open, in words: what is wrong, and what to write. */
export interface GapWords {
  readonly fails: string;
  readonly write: string;
}

type Of<K extends Gap['kind']> = Extract<Gap, { readonly kind: K }>;

/** A check's name without its pack. */
const short = (check: string): string => check.split('/').at(-1) ?? check;

const proofText = ({ name, snapshot, value, unit, subject, expecting, like }: Suggestion): string => {
  const where = snapshot === '' ? '' : ` in ${snapshot}`;
  const own = name === subject || name.endsWith(`.${subject}`);
  return `add a proof with ${name} at ${value} ${unit}${where}, expecting ${expecting}${own ? '' : ` of ${subject}`}; else like the one in line ${like}`;
};

const unnoticed = ({ check, from, to, share, way, suggestion }: Of<'unnoticed'>): GapWords => ({
  fails: `no proof of ${short(check)} notices its ${from} moved ${way} by ${share * 100} %, to ${to}`,
  write: suggestion ? proofText(suggestion) : `add a proof that lies between ${from} and ${to}`,
});

const neverReported = ({
  check,
  weight,
  side,
  limit,
  heavier,
  heavierLimit,
}: Of<'never-reported'>): GapWords => ({
  fails: `the ${weight} limit of ${limit} of ${short(check)} can never be reported, since the ${heavier} limit of ${heavierLimit} comes before it`,
  write: `put it ${side === 'low' ? 'above' : 'below'} ${heavierLimit}, or leave it out`,
});

const unknownName = ({ what, name, by, known }: Of<'unknown-name'>, meant: string | null): GapWords => ({
  fails: `${by} asks for the ${what} ${name}, which none of these packs has`,
  write:
    meant === null ? `name one of ${known.length > 0 ? known.join(', ') : 'them'}` : `did you mean ${meant}?`,
});

/** The words of a gap. */
export const gapWords = ({ gap, meant }: PlacedGap): GapWords => {
  switch (gap.kind) {
    case 'unnoticed':
      return unnoticed(gap);
    case 'no-unit':
      return {
        fails: `${short(gap.check)} has a limit without a unit: ${gap.text}`,
        write: gap.unit === null ? 'write its unit behind it' : `write ${gap.text} ${gap.unit}`,
      };
    case 'never-reported':
      return neverReported(gap);
    case 'unknown-name':
      return unknownName(gap, meant);
    case 'step-not-shown':
      return {
        fails: `no proof makes the step ${gap.step} needed`,
        write: `add a proof whose job makes it needed, expecting steps: {${gap.step}: ready}, or waiting`,
      };
    case 'channel-not-judged':
      return {
        fails: `no check judges ${gap.channel}`,
        write: 'add a check of it, or say why there is none: unjudged: …',
      };
    case 'caution-not-used':
      return {
        fails: `nothing names the caution ${gap.caution}`,
        write: `name it where it is to be heeded: cautions: [${gap.caution}], or leave it out`,
      };
    case 'not-shown':
      return gap.lacks === 'firing'
        ? { fails: `no proof shows ${short(gap.check)} firing`, write: 'add a proof in which it is out' }
        : { fails: `no proof shows ${short(gap.check)} silent`, write: 'add a proof in which it is within' };
    case 'nothing-run':
      return {
        fails: 'nothing was run, since the pack has neither proofs nor suspects',
        write: 'add proofs: a small job under given, and what follows from it under expect',
      };
  }
};
