import { InvalidArgumentError } from 'commander';
import { type SweepFormat, sweepFormats } from '../../report/sweep/sweep-formats.ts';
import { rowStates } from './filters.ts';
import { readShard, type Shard } from './shard.ts';

/** A file that an output goes to. */
export interface Target {
  readonly format: SweepFormat;
  readonly file: string;
}

/** Days, which may be typed as weeks. */
export const days = (text: string): number => {
  const [, count = '', unit = 'd'] = /^(\d{1,5})\s*([dw])?$/iu.exec(text) ?? [];
  if (count === '') throw new InvalidArgumentError('Give days, such as 14 or 14d, or weeks, such as 2w.');
  return Number(count) * (unit.toLowerCase() === 'w' ? 7 : 1);
};

const isFormat = (text: string): text is SweepFormat => (sweepFormats as readonly string[]).includes(text);

/** Adds `FORMAT=FILE` to those before. */
export const target = (text: string, before: readonly Target[]): Target[] => {
  const [format = '', ...rest] = text.split('=');
  const file = rest.join('=');
  if (!isFormat(format) || file === '') {
    throw new InvalidArgumentError(`Give FORMAT=FILE, with a format of ${sweepFormats.join(', ')}.`);
  }
  return [...before, { format, file }];
};

/** Adds statuses, apart by commas, to those before. */
export const states = (text: string, before: readonly string[] | undefined): string[] => {
  const wanted = text.split(',').map((one) => one.trim());
  const wrong = wanted.find((one) => !(rowStates as readonly string[]).includes(one));
  if (wrong !== undefined) throw new InvalidArgumentError(`Give some of ${rowStates.join(', ')}.`);
  return [...(before ?? []), ...wanted];
};

/** `K/N`. */
export const shard = (text: string): Shard => {
  const read = readShard(text);
  if (read === null) throw new InvalidArgumentError('Give K/N, such as 1/8 for the first of eight.');
  return read;
};
