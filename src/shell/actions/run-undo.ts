import { writtenText } from '../../report/entry/written.ts';
import type { LookFlags } from '../look.ts';
import { takeBack } from '../save/take-back.ts';
import type { Shell } from '../shell.ts';
import { type ChangeFlags, refused, styleFor } from './changing.ts';

/** What `undo` is called with. */
export interface UndoFlags extends LookFlags {
  readonly quiet?: boolean;
}

/** `cornerwise undo`: takes back the last change. */
export const undo = async (file: string, flags: UndoFlags, shell: Shell): Promise<void> => {
  const all: ChangeFlags = { ...flags, rules: [] };
  const outcome = await takeBack(file, shell.io);
  if (outcome.kind !== 'taken-back') {
    refused(outcome, file, all, shell);
    return;
  }
  const more = outcome.left > 0 ? `; ${outcome.left} more on record` : '';
  const text = writtenText(`${file}: took back ${outcome.made.what}${more}`, [], styleFor(all, null, shell));
  if (!flags.quiet) shell.io.stdout.write(`${text}\n`);
};
