import type { Corner } from '../corner.ts';
import type { Layout } from '../job.ts';
import { keyOf, parseKey } from '../key.ts';
import type { Channel } from '../pack.ts';

/** What decides where a check looks on a vehicle. */
export interface Shape {
  readonly layout: Layout;
  readonly fitted: readonly Corner[];
  readonly channels: ReadonlyMap<string, Channel>;
}

/** What a check is about: a corner, an axle, the body or a channel, and the channels that it reads there. */
export interface Subject {
  readonly name: string;
  readonly channels: readonly string[];
}

/** Whether any snapshot holds a reading of a key. */
export type WasRead = (key: string) => boolean;

/** Subjects for the channels that a check names: one a fitted corner, or the channel itself. */
export const subjectsOf = (
  { channels, fitted }: Shape,
  wasRead: WasRead,
  channelId: string,
  others: readonly string[] = [],
): Subject[] => {
  const per = (id: string): string => channels.get(parseKey(id).base)?.per ?? 'vehicle';
  const keys = [channelId, ...others];
  const atCorners = fitted.map((corner) => ({
    name: corner,
    channels: keys.map((id) => keyOf(id, per(id) === 'vehicle' ? null : corner)),
  }));
  if (per(channelId) === 'corner') return atCorners;
  const whole = { name: channelId, channels: keys };
  if (per(channelId) === 'vehicle') return [whole];
  // A channel of either form: the corners where it was read, and the vehicle's one reading where it was or none was.
  const read = atCorners.filter(({ channels: [key = ''] }) => wasRead(key));
  return wasRead(channelId) || read.length === 0 ? [whole, ...read] : read;
};
