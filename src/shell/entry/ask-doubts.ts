import type { Channel } from '../../core/pack.ts';
import type { Doubt } from '../../core/readings/doubt.ts';
import type { Instrument } from '../../core/readings/instruments.ts';
import type { Assignment } from '../../input/typed/assignment.ts';
import { doubtText } from '../../input/typed/typed.ts';
import { typedName } from '../../input/typed/typed-name.ts';
import { typedPart } from '../../input/typed/typed-snapshot.ts';
import type { Asking } from './ask-choice.ts';

const doubtOf = (
  assignment: Assignment,
  channels: ReadonlyMap<string, Channel>,
  instruments: readonly Instrument[],
): Doubt | null => {
  const name = typedName(assignment.name, channels);
  const part = name.ok ? typedPart(name.value, assignment, instruments) : name;
  return part.ok ? null : (part.fault.doubt ?? null);
};

/**
 * Asks about every reading that nobody would believe, until it is typed anew or kept with `!`.
 *
 * @returns null once no more answers come
 */
export const askDoubts = async (
  assignments: readonly Assignment[],
  channels: ReadonlyMap<string, Channel>,
  instruments: readonly Instrument[],
  { prompter, style }: Asking,
): Promise<readonly Assignment[] | null> => {
  const sure: Assignment[] = [];
  for (const given of assignments) {
    let assignment = given;
    let doubt = doubtOf(assignment, channels, instruments);
    while (doubt !== null) {
      const answer = await prompter.ask(style.text(`${assignment.name}: ${doubtText(doubt)}: `));
      if (answer === null) return null;
      const typed = answer.trim();
      if (typed === '') continue;
      assignment = { ...assignment, typed: typed === '!' ? `${assignment.typed.trim()}!` : typed };
      doubt = doubtOf(assignment, channels, instruments);
    }
    sure.push(assignment);
  }
  return sure;
};
