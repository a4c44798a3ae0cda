import type { Channel, Check, Component, Pack, Test } from '../../core/pack.ts';

/** What the packs of a job define, all packs together. */
export interface PackTables {
  readonly channels: readonly Channel[];
  readonly channelById: ReadonlyMap<string, Channel>;
  readonly checks: readonly Check[];
  readonly components: readonly Component[];
  /** Names and ids. */
  readonly steps: ReadonlySet<string>;
  readonly tests: readonly Test[];
}

const made = new WeakMap<readonly Pack[], PackTables>();

const make = (packs: readonly Pack[]): PackTables => {
  const channels = packs.flatMap((pack) => pack.channels);
  return {
    channels,
    channelById: new Map(channels.map((channel) => [channel.id, channel])),
    checks: packs.flatMap((pack) => pack.checks),
    components: packs.flatMap((pack) => pack.components),
    steps: new Set(packs.flatMap((pack) => pack.steps).flatMap(({ name, id }) => [name, id])),
    tests: packs.flatMap((pack) => pack.tests),
  };
};

/** Made once for each list of packs, which nobody changes: jobs that name the same packs share them. */
export const tablesOf = (packs: readonly Pack[]): PackTables => {
  const tables = made.get(packs) ?? make(packs);
  made.set(packs, tables);
  return tables;
};
