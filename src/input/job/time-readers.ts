import type { Stamp } from '../../core/job.ts';
import type { Warning } from '../../core/worksheet-parts.ts';
import type { Sink } from '../sink.ts';
import { type Node, textOf } from '../yaml/tree.ts';
import { isClock, onDay } from './read-opening.ts';
import { readTime } from './read-time.ts';

/**
 * A reader of times in one zone that reports what is wrong with them.
 *
 * @param day the day that a time of day alone is on
 */
export const timeReader =
  (zone: string, day: () => string, warn: (warning: Warning) => void, sink: Sink) =>
  (node: Node): Stamp | null => {
    const typed = textOf(node);
    if (typed === undefined) return null;
    const text = isClock(typed) ? onDay(typed, day()) : typed;
    const result = readTime(text, zone);
    if (result.ok) {
      if (result.ambiguous) warn({ kind: 'ambiguous-time', text });
      return result.stamp;
    }
    sink.add(result.code, node, result.message, result.hint);
    return null;
  };

/** A reader of times that must have a time of day: whether a reading came before the work depends on it. */
export const clockReader =
  (timeAt: (node: Node) => Stamp | null, sink: Sink) =>
  (node: Node): Stamp | null => {
    const stamp = timeAt(node);
    if (stamp === null || stamp.resolution <= 60_000) return stamp;
    const text = textOf(node) ?? '';
    sink.add('bad-time', node, `"${text}" has no time of day`, `write it like ${text}T08:40`);
    return null;
  };
