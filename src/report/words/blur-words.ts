import { layouts } from '../../core/job.ts';
import type { Blur, Member } from '../../core/suspects/proof/blurs.ts';
import { oneLine } from '../clean.ts';
import { wrap } from '../sheet/grid.ts';

/** Names in a row; with semicolons where a name has a comma of its own. */
const listed = (names: readonly string[]): string =>
  names.join(names.some((name) => name.includes(',')) ? '; ' : ', ');

/** Where something holds, where that is not every layout. */
export const onLayouts = (some: readonly string[]): string =>
  some.length === layouts.length ? '' : ` on ${some.join(' and ')}`;

const titled = (id: string, members: readonly Member[]): string =>
  members.find((member) => member.id === id)?.title ?? id;

const headOf = ({ what, members, layouts: some }: Blur): string => {
  const names = listed(members.map(({ title }) => title));
  if (what === 'corner') return `By readings alone the corner stays open${onLayouts(some)}: ${names}`;
  const corner = members.some(({ perCorner }) => perCorner) ? ' (at one corner)' : '';
  return `By readings alone these cannot be told apart${onLayouts(some)}: ${names}${corner}`;
};

/** Suspects that readings cannot tell apart, the tests that do, and loudly what no test does. */
export const blurLines = (blur: Blur, width: number): string[] => {
  const { splits, left, members } = blur;
  const tests = splits.map(({ title, id, minutes }) => `${title} (${id}), ${Math.round(minutes)} min`);
  return [
    ...wrap(oneLine(headOf(blur)), width, 2, 6),
    ...(tests.length > 0 ? wrap(oneLine(`split by ${tests.join('; then ')}`), width, 6, 8) : []),
    ...left.flatMap((part) =>
      wrap(oneLine(`NO TEST SPLITS ${listed(part.map((id) => titled(id, members)))}`), width, 6, 8),
    ),
  ];
};

/** What it means that two cannot be told apart. */
export const blurNote =
  'Cannot be told apart: even with every reading of the pack taken, the wrong one of two would look the likelier in one case out of five or more.';
