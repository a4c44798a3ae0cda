import type { Pack } from '../pack.ts';
import type { Gap } from './gaps.ts';

/** What stands at the places of a pack that name cautions: their names, and of channels their texts. */
const namedIn = ({ channels, checks, steps, holdPoints, tests, dangers }: Pack): ReadonlySet<string> =>
  new Set(
    [
      ...[...channels, ...steps, ...holdPoints, ...tests, ...dangers],
      ...checks.flatMap(({ danger }) => danger ?? []),
      ...steps.flatMap(({ cautionsFor }) => cautionsFor),
    ].flatMap(({ cautions }) => cautions),
  );

/** Cautions that nothing of the pack names: nobody would ever read them. */
export const unusedCautions = (pack: Pack): Gap[] => {
  const named = namedIn(pack);
  return pack.cautions.flatMap(({ id, text }, index): Gap[] =>
    named.has(id) || named.has(text)
      ? []
      : [{ kind: 'caution-not-used', path: ['cautions', index], caution: id }],
  );
};
