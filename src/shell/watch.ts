import { makeBell } from './bell.ts';
import type { WatchTools } from './disk/watch-tools.ts';
import { type Wanted, watchFolders } from './watched-folders.ts';

/** What a judgement hangs on, at one moment. */
export interface Sources {
  readonly wanted: Wanted;
  /** Equal exactly when nothing that the judgement reads differs. */
  readonly print: string;
}

export interface Watching<S extends Sources> {
  /** Reads what the judgement hangs on. */
  readonly look: () => Promise<S>;
  /** Judges what was read, and prints it. */
  readonly judge: (sources: S) => Promise<void>;
  /** Whether nobody reads what is printed any more. */
  readonly isLeft?: () => boolean;
  /** Told once, when the first judgement is printed and everything is being watched. */
  readonly ready: (sources: S) => void;
  /** Told of a folder that the system does not let us watch. */
  readonly refused: (folder: string, error: unknown) => void;
}

/** Editors write, rename and set rights in one go; a save is over when so many milliseconds pass in silence. */
const quiet = 100;

/**
 * Judges, and judges again whenever what the judgement hangs on differs, until it is stopped. Judgements never
 * overlap: what changes during one leads to the next.
 */
export const watch = async <S extends Sources>(
  { look, judge, isLeft, ready, refused }: Watching<S>,
  tools: WatchTools,
): Promise<void> => {
  const bell = makeBell();
  const folders = watchFolders(tools, bell.ring, refused);
  const forget = tools.onStop(bell.stop);
  let last: string | null = null;
  try {
    while (!bell.stopped()) {
      let sources = await look();
      // What was read before its folder was watched may have changed unseen in between.
      while (await folders.open(sources.wanted)) sources = await look();
      if (sources.print !== last) await judge(sources);
      // Where nothing may be watched, which was told, nothing would ever ring.
      if (!folders.any() || isLeft?.()) break;
      if (last === null) ready(sources);
      last = sources.print;
      await bell.wait();
      while (!bell.stopped() && (await bell.wait(quiet))) {}
    }
  } finally {
    forget();
    folders.close();
  }
};
