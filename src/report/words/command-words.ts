import { parseKey } from '../../core/key.ts';
import type { Blank, Command, CommandOption } from '../../core/now/command.ts';

/** More readings than these are asked for one by one. */
const mostTyped = 8;

/** A word as a shell takes it: in quotes where it is more than a plain word. */
const shellWord = (word: string): string =>
  /^[\w./:@+-]+$/u.test(word) ? word : `'${word.replaceAll("'", "'\\''")}'`;

const blankText = (blank: Blank): string => {
  if (blank.kind === 'choice') return blank.of.join('|');
  if (blank.kind === 'text') return '"…"';
  return blank.kind === 'amount' && blank.about !== null ? String(blank.about) : '…';
};

const optionText = ({ name, value }: CommandOption): string => `--${name} ${blankText(value)}`;

/** A channel as it is best typed: a corner alone means its position. */
const nameText = (key: string): string => {
  const { base, corner } = parseKey(key);
  return base === 'position' && corner !== null ? corner : key;
};

const conditionText = (name: string, wants: readonly string[]): string =>
  `${name}=${wants.length === 0 ? '…' : wants.join('|')}`;

/**
 * A command as it is typed for a file. What the person has to fill in stands as `…`, what there is to choose from as
 * `one|other`.
 */
export const commandText = (command: Command, file: string): string => {
  const name = shellWord(file);
  switch (command.kind) {
    case 'log': {
      const { did, orDid, what, options } = command;
      const words = [[did, ...orDid].join('|'), ...(what === null ? [] : [what]), ...options.map(optionText)];
      return `cornerwise log ${name} ${words.join(' ')}`;
    }
    case 'add': {
      const { state, names, several, conditions, lamp, codes } = command;
      const things = [
        ...conditions.map(({ name: one, wants }) => conditionText(one, wants)),
        ...names.map((key) => `${nameText(key)}=${several.includes(key) ? '…/…/…' : '…'}`),
        ...(lamp ? ['lamp=…'] : []),
        ...(codes ? ['code=…'] : []),
      ];
      // One by one they are asked for once each.
      const isLong = things.length > mostTyped && several.length === 0;
      return isLong || things.length === 0
        ? `cornerwise fill ${name}`
        : `cornerwise add ${name} ${state} ${things.join(' ')}`;
    }
    case 'fix': {
      const stated = command.conditions.map(({ name: one, wants }) => conditionText(one, wants));
      return `cornerwise fix ${name} ${command.snapshot} ${stated.join(' ')}`;
    }
    case 'waive':
      return `cornerwise waive ${name} ${command.finding} --reason "…" --by "…" --until …`;
    case 'edit':
      return `edit ${name}: ${command.at}`;
  }
};
