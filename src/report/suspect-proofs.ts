import type { Pack } from '../core/pack.ts';
import type { Confirmation } from '../core/suspects/model.ts';
import type { Costly } from '../core/suspects/proof/costly.ts';
import { isOutOfReach, type SuspectsProof } from '../core/suspects/proof/prove-suspects.ts';
import { oneLine } from './clean.ts';
import { confirmText } from './pack-suspects.ts';
import { wrap } from './sheet/grid.ts';
import type { Style } from './style.ts';
import { blurLines, blurNote, onLayouts } from './words/blur-words.ts';

/** What an hour of work is counted in, and whether a shop file said so. */
export interface Money {
  readonly fromShop: boolean;
  readonly currency: string | null;
}

/** A digit more than a ranking shows, so that what is just short does not look as if it were not. */
const percent = (p: number): string => `${(p * 100).toFixed(1)} %`;

const named = ({ suspect }: Costly): string => `${suspect.title} (${suspect.id})`;

/** The places of each suspect that are alike in something, in the pack's order. */
const bySuspect = (all: readonly Costly[], keep: (one: Costly) => boolean): Costly[][] => {
  const found = new Map<string, Costly[]>();
  for (const one of all.filter(keep)) found.set(one.suspect.id, [...(found.get(one.suspect.id) ?? []), one]);
  return [...found.values()];
};

/** Layouts and corners of some places, where they are not all that the suspect has. */
const whereOf = (some: readonly Costly[], all: readonly Costly[]): string => {
  const own = all.filter(({ suspect }) => suspect.id === some[0]?.suspect.id);
  if (some.length === own.length) return '';
  const of = [...new Set(some.map(({ layout }) => layout))];
  const corners = [...new Set(some.flatMap(({ corner }) => corner ?? []))];
  return `${onLayouts(of)}${corners.length > 0 ? ` at ${corners.join(', ')}` : ''}`;
};

const furthestOff = (some: readonly Costly[]): Costly | undefined =>
  [...some].sort((a, b) => (a.best ?? 0) - a.threshold - ((b.best ?? 0) - b.threshold))[0];

const shortLines = (some: readonly Costly[], all: readonly Costly[], file: string): string[] => {
  const worst = furthestOff(some);
  if (!worst) return [];
  const { suspect, rival, best, threshold } = worst;
  const head = `FAILS: ${named(worst)} must be over ${percent(threshold)} before it may be ordered${whereOf(some, all)}`;
  return best === null
    ? [
        `${head}, and no finding leads to it`,
        `${file}: add evidence whose readings can be out, and say under expects what ${suspect.id} shows of it`,
      ]
    : [
        `${head}; its findings and tests bring it to ${percent(best)} at best, with ${rival.title} (${rival.id}) beside it`,
        `${file}: add a test with an outcome that is often found under ${suspect.id} and seldom under ${rival.id}, or a sign that only one of them shows`,
      ];
};

const unconfirmableLines = (some: readonly Costly[], all: readonly Costly[], file: string): string[] => {
  const lacking = [...new Set(some.flatMap(({ unconfirmable }) => unconfirmable.map(confirmText)))];
  const [first] = some;
  if (!first) return [];
  return [
    `FAILS: ${named(first)} cannot be confirmed${whereOf(some, all)}, since it wants what cannot be had there: ${lacking.join('; ')}`,
    `${file}: let the test serve every layout of ${first.suspect.id}, mend what it waits for (after), or confirm it otherwise`,
  ];
};

/** What must be on record, all its alternatives, and what each test of it waits for. */
const wantedText = ({ test, found, group, shows }: Confirmation, { tests }: Pack): string => {
  const after = tests.find(({ id }) => id === test)?.after ?? [];
  const waits = after.length === 0 ? '' : ` (done after ${after.map(confirmText).join(' and ')})`;
  const byTest = test === null ? [] : [`${test} finds ${found.join(' or ')}${waits}`];
  return [...byTest, ...(group === null ? [] : [`${group} shows ${shows}`])].join(' or ');
};

const tornLine = (some: readonly Costly[], { costly, pack }: SuspectsProof): string[] => {
  const [first] = some;
  if (!first) return [];
  const why =
    first.torn === 'excluded' ? 'parts of it rule each other out' : 'together that speaks against it';
  const wanted = first.suspect.confirm.map((one) => wantedText(one, pack)).join('; ');
  return [
    `MIND: ${named(first)} is never over its threshold with all on record that must confirm it${whereOf(some, costly ?? [])}, since ${why}: ${wanted}`,
  ];
};

const openLine = (some: readonly Costly[], all: readonly Costly[]): string =>
  `NOT DECIDED: ${some[0] ? named(some[0]) : ''}${whereOf(some, all)}; there are too many ways to try, and none of those that were tried brings it over its threshold`;

const howLine = ([first]: readonly Costly[]): string[] =>
  first ? [`${named(first)} gets over ${percent(first.threshold)} by ${first.by.join('; ')}`] : [];

const costlyLines = (proof: SuspectsProof, file: string, money: Money, style: Style): string[] => {
  const { costly, rate } = proof;
  const { width, all: everything } = style.options;
  if (costly === null) {
    const text = 'Thresholds are not judged: the pack does not say what giving a job away costs (escalate).';
    return wrap(text, width, 2, 6);
  }
  if (costly.length === 0) return ['  No suspect is costly: each could be tried first.'];
  const broken = bySuspect(costly, isOutOfReach);
  const over = bySuspect(costly, ({ verdict }) => verdict === 'over');
  const suspects = bySuspect(costly, () => true).length;
  const hour = `labour at ${rate}${money.currency === null ? '' : ` ${money.currency}`} an hour${money.fromShop ? ', as the shop file says' : ', since no shop file says'}`;
  const good = suspects - bySuspect(costly, (one) => isOutOfReach(one) || one.verdict === 'open').length;
  const summary = `Costly suspects: ${good} of ${suspects} can be brought over their threshold, and what must confirm them can be had (${hour})`;
  const failures = broken.flatMap((some) =>
    [
      shortLines(
        some.filter(({ verdict }) => verdict === 'short'),
        costly,
        file,
      ),
      unconfirmableLines(
        some.filter(({ unconfirmable }) => unconfirmable.length > 0),
        costly,
        file,
      ),
    ].flatMap(([head = '', hint = '']) =>
      head === '' ? [] : [...wrap(oneLine(head), width, 2, 6), ...wrap(oneLine(hint), width, 6, 8)],
    ),
  );
  const notes = [
    ...bySuspect(costly, ({ torn }) => torn !== null).flatMap((some) => tornLine(some, proof)),
    ...bySuspect(costly, ({ verdict }) => verdict === 'open').map((some) => openLine(some, costly)),
  ];
  return [
    ...wrap(summary, width, 2, 6),
    ...(everything ? over.flatMap(howLine).flatMap((line) => wrap(oneLine(line), width, 6, 8)) : []),
    ...failures,
    ...notes.flatMap((line) => wrap(oneLine(line), width, 2, 6)),
  ];
};

/** What a pack's suspects can come to: groups that readings do not tell apart, and costly parts out of reach. */
export const suspectProofLines = (
  proof: SuspectsProof,
  file: string,
  money: Money,
  style: Style,
): string[] => {
  const { width } = style.options;
  return [
    ...proof.blurs.flatMap((blur) => blurLines(blur, width)),
    ...(proof.blurs.length > 0 ? wrap(blurNote, width, 2, 6) : []),
    ...costlyLines(proof, file, money, style),
  ];
};
