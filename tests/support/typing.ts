import type { Job } from '../../src/core/job.ts';
import type { Channel } from '../../src/core/pack.ts';
import { preparePacks } from '../../src/core/prepare/prepared-packs.ts';
import { type Instrument, usualInstruments } from '../../src/core/readings/instruments.ts';
import { insertionsFor } from '../../src/input/edit/change.ts';
import { insert } from '../../src/input/edit/insertion.ts';
import type { Value } from '../../src/input/edit/value.ts';
import { openJob, readJob } from '../../src/input/job/read-job.ts';
import type { Typed, TypedFault } from '../../src/input/typed/typed.ts';
import type { Node } from '../../src/input/yaml/tree.ts';
import { packOf } from './judge.ts';

/** The channels and components of the usual pack of a test, with a check so that it is one. */
export const typingPack = packOf(`checks:
  - {id: band, kind: range, title: Band, of: position, in: [key-on], basis: {kind: from-memory}, tiers: [{weight: look, between: [1 V, 4 V]}]}
steps:
  - {id: height-learn, title: Height learn, minutes: 15}`);

export const channels: ReadonlyMap<string, Channel> = preparePacks([typingPack]).channelById;

export const channelOf = (id: string): Channel => {
  const channel = channels.get(id);
  if (!channel) throw new Error(`no channel ${id}`);
  return channel;
};

/** The usual instruments, of which the meter shows hundredths of a volt. */
export const instruments: readonly Instrument[] = usualInstruments.map((one) =>
  one.name === 'meter' ? { ...one, shows: { value: 0.01, unit: 'V' } } : one,
);

/** What was understood; a fault is told and fails the test. */
export const understood = <T>(typed: Typed<T>): T => {
  if (!typed.ok) throw new Error(`${typed.fault.typed}: ${typed.fault.message}; ${typed.fault.hint}`);
  return typed.value;
};

export const faultOf = (typed: Typed<unknown>): TypedFault => {
  if (typed.ok) throw new Error(`this was understood: ${JSON.stringify(typed.value)}`);
  return typed.fault;
};

const bare = `worksheet: 1
job: S07-0001
title: Job of a test
opened: 2026-03-02T08:00
zone: Europe/Dublin
status: open
vehicle: {name: Shuttle 7, layout: four-corner-air}
`;

/** A value put at the end of a list of a bare job, as text and read back as the program reads files. */
export const writtenJob = (
  list: 'snapshots' | 'log',
  value: Value,
): { readonly text: string; readonly job: Job; readonly root: Node } => {
  const { root } = openJob(bare);
  const insertions = root && insertionsFor(bare, root, { kind: 'append', to: [list], items: [value] });
  if (!insertions) throw new Error('the bare job takes no more');
  const text = insert(bare, insertions);
  const around = {
    prepared: preparePacks([typingPack]),
    shop: null,
    elsewhere: new Map<string, string>(),
    sameDefinition: () => true,
  };
  const read = openJob(text);
  const { job, problems } = readJob(read, around);
  if (!job || !read.root) throw new Error(`${text}\n${problems.map(({ message }) => message).join('\n')}`);
  return { text, job, root: read.root };
};
