import { nameHash } from './hash.ts';

/** One of several sweeps that share the files among them: the `number`-th of `of`, counted from 1. */
export interface Shard {
  readonly number: number;
  readonly of: number;
}

/** Reads `2/8`; null where it is none. */
export const readShard = (text: string): Shard | null => {
  const [, number = '', of = ''] = /^([1-9]\d{0,4})\/([1-9]\d{0,4})$/u.exec(text) ?? [];
  return number !== '' && Number(number) <= Number(of) ? { number: Number(number), of: Number(of) } : null;
};

/** Whether a file falls to a shard: by its name as it is printed, with slashes, so that every machine agrees. */
export const fallsTo = ({ number, of }: Shard, name: string): boolean =>
  nameHash(name.replaceAll('\\', '/')) % of === number - 1;
