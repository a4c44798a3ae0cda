import type { Command } from 'commander';
import type { PacksFlags } from '../actions/run-packs.ts';
import type { UpgradeFlags } from '../actions/run-upgrade.ts';
import { addLookOptions, rulesOption } from '../options.ts';
import type { Shell } from '../shell.ts';

/** `cornerwise packs …`: what the rule packs hold, whether they do what they say, and files brought to the newest. */
export const addPacks = (program: Command, shell: Shell): void => {
  const packs = program.command('packs').description('Show the rule packs, and run their proofs.');
  const add = (command: Command): Command => addLookOptions(command.addOption(rulesOption()));
  add(packs.command('list').description('List every pack with its versions.')).action(
    async (flags: PacksFlags) => {
      const { listPacks } = await import('../actions/actions.ts');
      return listPacks(flags, shell);
    },
  );
  add(
    packs
      .command('show')
      .description(
        'Show what a pack holds: channels, checks with their limits and basis, steps, hold points.',
      )
      .argument('<ID>', 'a pack, such as position-signals or position-signals@1.0.0'),
  ).action(async (ref: string, flags: PacksFlags) => {
    const { showPack } = await import('../actions/actions.ts');
    return showPack(ref, flags, shell);
  });
  add(
    packs
      .command('prove')
      .summary('Run the proofs of packs, and check what their suspects can lead to.')
      .description(
        'Run the proofs of packs, and say which proof is missing: every check must be shown to fire and to stay silent, every limit on either side (each is moved by 2 % and 10 %, and some proof must notice), every step needed, and every costly suspect must be within reach of some findings and tests. Says which suspects readings alone cannot tell apart, and which test does.',
      )
      .argument('[ID...]', 'packs (default: all)')
      .option('--all', 'also say by which findings and tests each costly suspect gets over its threshold'),
  ).action(async (refs: string[], flags: PacksFlags) => {
    const { provePacks } = await import('../actions/actions.ts');
    return provePacks(refs, flags, shell);
  });
  add(
    packs
      .command('upgrade')
      .summary('Bring a job or shop file to the newest packs.')
      .description(
        'Bring a job or shop file to the newest packs: their ranges, and the checks that waivers and service data name. What cannot be brought over is told, and then nothing is written. "cornerwise undo" takes it back.',
      )
      .argument('<FILE>', 'job file or shop file')
      .option('--dry-run', 'only tell what would be changed')
      .option('--quiet', 'print nothing but errors'),
  ).action(async (file: string, flags: UpgradeFlags) => {
    const { upgradePacks } = await import('../actions/actions.ts');
    return upgradePacks(file, flags, shell);
  });
};
