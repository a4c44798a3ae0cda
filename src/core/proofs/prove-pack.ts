import type { Path } from '../flaw.ts';
import type { Check, Pack } from '../pack.ts';
import type { Gap } from './gaps.ts';
import { neverReported } from './never-reported.ts';
import { coverage, type Proof } from './prove.ts';
import { quantitiesOf, rawOf } from './quantities.ts';
import { suggestionFor } from './suggestion.ts';
import { unknownNames } from './unknown-names.ts';
import { pinningOf, type Unnoticed } from './unnoticed.ts';
import { unusedCautions } from './unused-cautions.ts';

/** What a pack's proofs leave open. */
export interface PackProof {
  readonly gaps: readonly Gap[];
  /** How many limits and points of tables were moved; null where that was not asked for. */
  readonly moved: number | null;
}

const pathOf = (check: Check, pack: Pack): Path => ['checks', pack.checks.indexOf(check)];

const hasUnit = (text: string): boolean => !/^[+-]?\d+(?:\.\d+)?$/u.test(text.trim());

const withoutUnits = (check: Check, path: Path): Gap[] =>
  quantitiesOf(check)
    .filter((quantity) => quantity.hasUnit && !hasUnit(quantity.text))
    .map(({ path: below, text }) => {
      const ofLimits = below.some((part) => part === 'tiers');
      return {
        kind: 'no-unit',
        path: [...path, ...below],
        check: check.id,
        text,
        unit: ofLimits ? check.unit : null,
      };
    });

/** For so many of a pack's limits a proof is looked for, which takes some hundredths of a second each. */
const mostSuggested = 40;

/** One gap for each limit and way, at the least share that goes unnoticed. */
const unnoticedGaps = (all: readonly Unnoticed[]): Gap[] =>
  all
    .filter(
      (one, index) =>
        !all
          .slice(0, index)
          .some(({ move }) => move.quantity === one.move.quantity && move.way === one.move.way),
    )
    .map((one, place) => {
      const { check, index, move } = one;
      const { quantity, to, share, way } = move;
      return {
        kind: 'unnoticed',
        path: ['checks', index, ...quantity.path],
        check: check.id,
        from: quantity.text,
        to,
        share,
        way,
        suggestion: place < mostSuggested ? suggestionFor(one) : null,
      };
    });

/** Steps that no proof makes needed; of those that are made for a component, one that is is enough. */
const unshownSteps = ({ steps }: Pack, proofs: readonly Proof[]): Gap[] => {
  const shown = proofs
    .flatMap(({ expect }) => expect)
    .filter(({ about, value }) => about === 'step' && value !== 'absent' && value !== 'not-needed');
  return steps.flatMap(({ id, name, each }, index): Gap[] =>
    shown.some((one) => one.name === name || one.name === id || (each && one.name.startsWith(`${name}.`)))
      ? []
      : [{ kind: 'step-not-shown', path: ['steps', index], step: name }],
  );
};

/** Names of channels stand as words, or in lists of them, behind the keys of a check. */
const namesIn = (check: Check): string[] =>
  Object.values(rawOf(check))
    .flat()
    .filter((value) => typeof value === 'string');

/** Channels that can be typed and that no check looks at, where the pack does not say why. */
const unjudgedChannels = ({ channels, checks }: Pack, others: readonly Pack[]): Gap[] => {
  const judged = new Set([...checks, ...others.flatMap((one) => one.checks)].flatMap(namesIn));
  return channels.flatMap(({ id, unjudged }, index): Gap[] =>
    unjudged !== null || judged.has(id)
      ? []
      : [{ kind: 'channel-not-judged', path: ['channels', index], channel: id }],
  );
};

const unshownChecks = (pack: Pack, proofs: readonly Proof[]): Gap[] =>
  coverage(pack, proofs).flatMap(({ check, fires, silent }, index): Gap[] => {
    const path = ['checks', index];
    return [
      ...(fires ? [] : [{ kind: 'not-shown', path, check, lacks: 'firing' } as const]),
      ...(silent ? [] : [{ kind: 'not-shown', path, check, lacks: 'silent' } as const]),
    ];
  });

/** What every version must show, whenever it was released: each check firing and silent. */
export const proveChecks = (pack: Pack, proofs: readonly Proof[]): PackProof => ({
  gaps: unshownChecks(pack, proofs),
  moved: null,
});

/**
 * Whether the proofs of a pack show all that it says: each check firing and silent, each limit on either side, each step
 * needed; and what of it nothing could ever show.
 *
 * @param others the packs that it is proved with
 */
export const provePack = (pack: Pack, proofs: readonly Proof[], others: readonly Pack[]): PackProof => {
  const { moved, unnoticed } = pinningOf(pack, proofs);
  const inVain = pack.checks.flatMap((check) => neverReported(check, pathOf(check, pack)));
  // No proof could notice a limit that is never reported.
  const vain = new Set(inVain.map(({ path }) => path.join()));
  const hasRun = proofs.length > 0 || pack.suspects.length > 0;
  return {
    moved,
    gaps: [
      ...(hasRun ? [] : [{ kind: 'nothing-run', path: [] } as const]),
      ...unshownChecks(pack, proofs),
      ...pack.checks.flatMap((check) => withoutUnits(check, pathOf(check, pack))),
      ...inVain,
      ...unnoticedGaps(
        unnoticed.filter(({ index, move }) => !vain.has(['checks', index, ...move.quantity.path].join())),
      ),
      ...unknownNames(pack, others),
      ...unshownSteps(pack, proofs),
      ...unjudgedChannels(pack, others),
      ...unusedCautions(pack),
    ],
  };
};
