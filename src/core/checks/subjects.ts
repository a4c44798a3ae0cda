import { keyOf, parseKey } from '../key.ts';
import type { Scene, Shape } from '../pack.ts';

/** What a check is about: a corner, an axle, the body or a channel, and the channels that it reads there. */
export interface Subject {
  readonly name: string;
  readonly channels: readonly string[];
}

/** Whether any snapshot holds a reading of a key. */
export type WasRead = (key: string) => boolean;

/** The subjects of a check on vehicles of one shape; what was read may decide, too. */
export type SubjectsOf = (shape: Shape, wasRead: WasRead) => readonly Subject[];

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

/**
 * Finds the subjects of a check, and keeps them by the vehicle's shape where nobody asked what was read.
 */
export const keptSubjects = (subjects: SubjectsOf): ((scene: Scene) => readonly Subject[]) => {
  const kept = new WeakMap<Shape, readonly Subject[]>();
  return ({ shape, read }) => {
    const before = kept.get(shape);
    if (before !== undefined) return before;
    let asked = false;
    const found = subjects(shape, (key) => {
      asked = true;
      return read.has(key);
    });
    if (!asked) kept.set(shape, found);
    return found;
  };
};
