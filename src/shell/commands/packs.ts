import type { Command } from 'commander';
import type { PacksFlags } from '../actions/run-packs.ts';
import { addLookOptions, rulesOption } from '../options.ts';
import type { Shell } from '../shell.ts';

/** `cornerwise packs …`: what the rule packs hold, and whether they do what they say. */
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
        'Run the proofs of packs: every check must be shown to fire and to stay silent, and every costly suspect must be within reach of some findings and tests. Says which suspects readings alone cannot tell apart, and which test does.',
      )
      .argument('[ID...]', 'packs (default: all)')
      .option('--all', 'also say by which findings and tests each costly suspect gets over its threshold'),
  ).action(async (refs: string[], flags: PacksFlags) => {
    const { provePacks } = await import('../actions/actions.ts');
    return provePacks(refs, flags, shell);
  });
};
