import { keysOf } from '../../core/key.ts';
import type { TestTerms, WantedFigure } from '../../core/suspects/model.ts';
import { quoted } from '../quoted.ts';
import { didYouMean } from '../suggest.ts';
import { entriesOf, get, itemsOf, type Node, numberOf, textOf } from '../yaml/tree.ts';
import { readComponent, texts } from './read-channel.ts';
import { checkKnown, layoutsOf, readConfirmation, readStrength, type SuspectScope } from './read-suspects.ts';

/** The names by which a test's outcomes may speak of a suspect: `sensor`, `sensor.LF` of its corners, `sensor:jumps` of its modes. */
export const suspectNames = (node: Node): string[] => {
  const { id, per } = readComponent(node);
  const modes = itemsOf(get(node, 'modes')).map((mode) => `${id}:${textOf(get(mode, 'id')) ?? ''}`);
  return [id, ...(per === 'vehicle' ? [] : keysOf(id, per)), ...modes];
};

/** How a test tells suspects apart; a test of a pack without suspects tells none. */
export const readTestTerms = (node: Node, scope: SuspectScope): TestTerms => {
  const { per } = readComponent(node);
  const setUp = get(node, 'set-up');
  checkKnown(
    get(node, 'group'),
    scope.groups.map(({ id }) => id),
    'group of evidence',
    scope.sink,
  );
  return {
    how: itemsOf(get(node, 'outcomes')).map((outcome) =>
      entriesOf(get(outcome, 'how')).map(({ key, keyStart, node: value }) => {
        if (key !== 'others' && !scope.suspects.includes(key)) {
          const hint = didYouMean(
            key,
            [...scope.suspects, 'others'],
            'name a suspect of this pack, or others',
          );
          scope.sink.add('unknown-name', keyStart, `this pack has no suspect ${quoted(key)}`, hint);
        }
        return [key, readStrength(value, scope.sink)] as const;
      }),
    ),
    group: textOf(get(node, 'group')) ?? null,
    setUp: setUp
      ? { id: textOf(get(setUp, 'id')) ?? '', minutes: numberOf(get(setUp, 'minutes')) ?? 0 }
      : null,
    brings: numberOf(get(get(node, 'brings'), 'minutes')) ?? 0,
    elapsed: numberOf(get(node, 'elapsed')) ?? 0,
    depends: get(node, 'depends') ? texts(get(node, 'depends')) : null,
    after: itemsOf(get(node, 'after')).map((item) => readConfirmation(item, per, scope)),
    notWhile: itemsOf(get(node, 'not-while')).map((item) => readConfirmation(item, per, scope)),
    wants: texts(get(node, 'wants')) as WantedFigure[],
    layouts: layoutsOf(node),
  };
};
