import { kinds } from '../../core/checks/kinds/index.ts';
import { lazy } from '../../core/lazy.ts';
import type { Check, Pack, Test } from '../../core/pack.ts';
import { get, itemsOf, type Node, toPlain } from '../yaml/tree.ts';
import { definitionOf, type RawCheck } from './check-definition.ts';

/** A check as it was read, but for what is made of its parameters when somebody asks. */
interface CheckAhead {
  readonly read: Omit<Check, 'rule' | 'definition'>;
  readonly raw: RawCheck;
}

/** A test with its maps as lists. */
interface TestAhead extends Omit<Test, 'how'> {
  readonly how: readonly (readonly (readonly [suspect: string, chance: number])[])[];
}

/** A pack in which there is no mistake, as data that JSON can hold: what reading its file comes to. */
export interface PackAhead {
  readonly pack: Omit<Pack, 'checks' | 'tests' | 'cautions'>;
  readonly checks: readonly CheckAhead[];
  readonly tests: readonly TestAhead[];
  readonly cautions: readonly (readonly [id: string, text: string])[];
}

/** A pack that was read without a mistake, with the tree that it was read from, as data. */
export const aheadOf = ({ checks, tests, cautions, ...pack }: Pack, root: Node): PackAhead => {
  const nodes = itemsOf(get(root, 'checks'));
  return {
    pack,
    checks: checks.map(({ rule, definition, ...read }, index) => ({
      read,
      raw: toPlain(nodes[index] ?? root) as RawCheck,
    })),
    tests: tests.map((test) => ({ ...test, how: test.how.map((chances) => [...chances]) })),
    cautions: [...cautions],
  };
};

/** The pack again, the same as from its file. */
export const packOfAhead = ({ pack, checks, tests, cautions }: PackAhead): Pack => {
  const channels = new Map(pack.channels.map((channel) => [channel.id, channel]));
  const names = checks.map(({ raw }) => String(raw.id));
  return {
    ...pack,
    checks: checks.map(({ read, raw }): Check => {
      const flaw = (): never => {
        throw new Error(`${read.id} was read ahead, and does not read now`);
      };
      const rule = lazy(() => {
        const kind = kinds.find((one) => one.kind === read.kind) ?? flaw();
        return kind.read(raw, { channels, checks: names, basis: read.basis, says: read.says, flaw });
      });
      const definition = lazy(() => definitionOf(raw));
      return {
        ...read,
        get rule() {
          return rule();
        },
        get definition() {
          return definition();
        },
      };
    }),
    tests: tests.map((test) => ({ ...test, how: test.how.map((chances) => new Map(chances)) })),
    cautions: new Map(cautions),
  };
};
