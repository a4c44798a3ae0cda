import { versionsText } from '../../report/entry/versions.ts';
import { writtenText } from '../../report/entry/written.ts';
import type { LookFlags } from '../look.ts';
import { type BroughtBack, bringBack, listVersions, takeBack } from '../save/take-back.ts';
import type { Shell } from '../shell.ts';
import { type ChangeFlags, refused, styleFor } from './changing.ts';

/** What `undo` is called with. */
export interface UndoFlags extends LookFlags {
  readonly quiet?: boolean;
  readonly list?: boolean;
  /** The number of a version. */
  readonly to?: number;
}

const broughtText = ({ version, before, isNew }: BroughtBack & { kind: 'brought-back' }): string => {
  if (!isNew) return `is version ${version.number} already; nothing was written`;
  const was = before === null ? 'the file was gone' : `it was version ${before.number} until now`;
  return `brought back version ${version.number}; ${was}`;
};

/** `cornerwise undo`: takes back the last change, lists the kept versions, or brings one of them back. */
export const undo = async (file: string, flags: UndoFlags, shell: Shell): Promise<void> => {
  const { io } = shell;
  const all: ChangeFlags = { ...flags, rules: [] };
  const style = styleFor(all, null, shell);
  const tell = (text: string): void => {
    if (!flags.quiet) io.stdout.write(`${writtenText(`${file}: ${text}`, [], style)}\n`);
  };
  if (flags.list) {
    const kept = listVersions(file, io);
    if (kept.kind !== 'kept') refused(kept, file, all, shell);
    else io.stdout.write(versionsText(file, kept.versions, kept.isGone, io.zone, style));
  } else if (flags.to !== undefined) {
    const outcome = await bringBack(file, flags.to, io);
    if (outcome.kind !== 'brought-back') refused(outcome, file, all, shell);
    else tell(broughtText(outcome));
  } else {
    const outcome = await takeBack(file, io);
    if (outcome.kind !== 'taken-back') refused(outcome, file, all, shell);
    else tell(`took back ${outcome.what}${outcome.left > 0 ? `; ${outcome.left} more on record` : ''}`);
  }
};
