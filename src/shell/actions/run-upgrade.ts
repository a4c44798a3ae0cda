import { upgradeText } from '../../report/upgrade-text.ts';
import { upgradeFile } from '../save/upgrade-file.ts';
import type { Shell } from '../shell.ts';
import { type ChangeFlags, readingFor, refuse, refuseFile, styleFor, tellUnrecorded } from './changing.ts';

/** What `packs upgrade` is called with. */
export interface UpgradeFlags extends ChangeFlags {
  readonly dryRun?: boolean;
}

/** `cornerwise packs upgrade`: takes a job or shop file to the newest packs. */
export const upgradePacks = async (file: string, flags: UpgradeFlags, shell: Shell): Promise<void> => {
  const dryRun = flags.dryRun === true;
  const outcome = await upgradeFile(file, dryRun, { ...readingFor(flags, shell), by: 'packs upgrade' });
  if (outcome.kind === 'trouble') return refuse(outcome.troubles, flags, shell);
  if (outcome.kind === 'problems') return refuseFile(file, outcome.problems, outcome.shop, flags, shell);
  tellUnrecorded(outcome.onRecord, shell);
  if (!flags.quiet)
    shell.io.stdout.write(upgradeText(file, outcome.upgraded, dryRun, styleFor(flags, null, shell)));
};
