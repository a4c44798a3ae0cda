import { argumentWanted } from './argument-places.ts';
import { type Candidate, candidate, continuing, type Wanted, words } from './candidate.ts';
import type { Names } from './names.ts';
import { optionValueWanted } from './option-values.ts';
import { type Place, placeOf } from './place.ts';
import type { CommandShape } from './shape.ts';

const nothing = words([]);

const optionCandidates = ({ command, options }: Place): Candidate[] => {
  const typed = new Set(options.map(({ flag }) => flag));
  return command.options
    .filter(({ flags, repeatable }) => repeatable || !flags.some((flag) => typed.has(flag)))
    .flatMap(({ flags, about }) => flags.map((flag) => candidate(flag, about)))
    .filter(({ value }) => value.startsWith('--'));
};

const commandCandidates = ({ command }: Place): Candidate[] =>
  command.commands.map(({ name, about }) => candidate(name, about));

/** `help` takes commands, as far down as they go. */
const helpPlace = (place: Place, program: CommandShape): Place =>
  place.given.length === 0 ? { ...place, command: program } : placeOf(['', ...place.given, ''], program);

const wantedAt = (place: Place, program: CommandShape, names: Names): Promise<Wanted> | Wanted => {
  if (place.option) return optionValueWanted(place.option, place, names);
  if (place.typed.startsWith('-') && !place.optionsOver)
    return { kind: 'words', candidates: optionCandidates(place) };
  if (place.path === 'help')
    return { kind: 'words', candidates: commandCandidates(helpPlace(place, program)) };
  if (place.command.commands.length > 0) {
    return place.given.length > 0 ? nothing : { kind: 'words', candidates: commandCandidates(place) };
  }
  return argumentWanted(place, names);
};

/**
 * What may stand at the cursor of a line.
 *
 * @param line the program, the words after it, and last the word at the cursor, which may be empty
 */
export const wanted = async (
  line: readonly string[],
  program: CommandShape,
  names: Names,
): Promise<Wanted> => {
  const place = placeOf(line, program);
  const found = await wantedAt(place, program, names);
  return found.kind === 'words'
    ? { kind: 'words', candidates: continuing(place.typed, found.candidates) }
    : found;
};
