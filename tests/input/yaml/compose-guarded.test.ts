import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { composeGuarded, deepest } from '../../../src/input/yaml/compose-guarded.ts';
import { readYaml } from '../../../src/input/yaml/read-yaml.ts';

const levels = 300_000;

/** What opens a level each time that it is repeated. */
const bombs: readonly (readonly [string, string])[] = [
  ['brackets', '['],
  ['braces', '{a: '],
  ['dashes', '- '],
  ['question marks', '? '],
  ['colons', ': '],
  ['dashes below question marks', '? - '],
  ['keys', 'a: '],
  ['brackets that hold pairs', '[a: '],
  ['brackets and braces', '[{a: '],
];

const indented = (part: string): string =>
  Array.from({ length: 1500 }, (_, depth) => `${' '.repeat(depth)}${part}`).join('\n');

describe('the depth guard', () => {
  it.each(bombs)('refuses %s without end', (_, unit) => {
    const { root, flaws } = readYaml(unit.repeat(levels));
    expect(root).toBeNull();
    expect(flaws.map(({ code }) => code)).toEqual(['too-deep']);
  });

  it.each(['a:', '-', '?', '"a":', '[a]:', '- a:'])('refuses %s further and further to the right', (part) => {
    expect(readYaml(indented(part)).flaws).toMatchObject([{ code: 'too-deep' }]);
  });

  it('is not fooled by a bracket that the next line leaves open', () => {
    expect(readYaml(`a: [\nb:\n${'- '.repeat(levels)}`).flaws).toMatchObject([{ code: 'too-deep' }]);
  });

  it('is not fooled by what stands before the depth', () => {
    expect(readYaml(`a: 1\n---\n${'[ '.repeat(levels)}`).flaws).toMatchObject([{ code: 'too-deep' }]);
    expect(readYaml(`x: "[[["\ny: |\n  [[[\nz: ${'['.repeat(levels)}`).flaws).toMatchObject([
      { code: 'too-deep' },
    ]);
  });

  it('bears two bombs in one process, and reads a good file after them', () => {
    for (const [, unit] of [...bombs, ...bombs]) composeGuarded(unit.repeat(levels));
    expect(readYaml('a: 1').flaws).toEqual([]);
  });

  it('points at the first level too many', () => {
    const text = `a: ${'['.repeat(deepest)}`;
    expect(composeGuarded(`${text.slice(0, -1)}${']'.repeat(deepest - 1)}`).tooDeep).toBeNull();
    expect(composeGuarded(text).tooDeep).toBe(text.length - 1);
  });

  it('lets much that is not deep pass', () => {
    const wide = `a:\n${'  - [b, {c: d}]\n'.repeat(2000)}`;
    expect(readYaml(wide).flaws).toEqual([]);
    expect(readYaml(`a: "${'['.repeat(5000)}"`).flaws).toEqual([]);
    expect(readYaml(`a: |\n${'  - - - [[[[\n'.repeat(500)}`).flaws).toEqual([]);
  });

  it('lets nothing pass that exhausts the composer', () => {
    const piece = fc.constantFrom(
      ...[
        '[',
        ']',
        '{',
        '}',
        '- ',
        '? ',
        ': ',
        ',',
        '\n',
        '\n ',
        ' ',
        'a',
        '"',
        "'",
        '|\n',
        '>',
        '&a ',
        '*a ',
      ],
      ...['!t ', '# c', '%', '---\n', '...\n', '\t', '\r\n', 'a: ', '"b": '],
    );
    const few = fc.array(piece, { minLength: 1, maxLength: 7 }).map((pieces) => pieces.join(''));
    fc.assert(
      fc.property(fc.constantFrom('', 'a: ', '[', 'a:\n'), few, few, (before, unit, after) => {
        const text = `${before}${unit.repeat(Math.ceil(30_000 / unit.length))}${after}`;
        const { documents } = composeGuarded(text);
        const exhausted = documents
          .flatMap(({ errors }) => errors)
          .filter(({ code }) => code === 'RESOURCE_EXHAUSTION');
        expect(exhausted).toEqual([]);
      }),
      { numRuns: 60 },
    );
  });
});
