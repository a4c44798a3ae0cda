import { watch as watchFiles } from 'node:fs';

/** What watching takes from the system; tests pass their own. */
export interface WatchTools {
  /**
   * Watches the entries of one folder, not of those below it.
   *
   * @param changed called with the entry's name, or null where the system does not tell it
   * @returns what ends it
   * @throws where the folder cannot be watched
   */
  readonly openFolder: (folder: string, changed: (name: string | null) => void) => () => void;
  /** Calls once when the user or the system ends the program; returns what takes that back. */
  readonly onStop: (stop: () => void) => () => void;
}

/** Watching by the system's own means. */
export const systemTools: WatchTools = {
  openFolder: (folder, changed) => {
    const watcher = watchFiles(folder, (_, name) => changed(name));
    // A folder that goes away may end its watcher with an error; without a name it is opened anew.
    watcher.on('error', () => changed(null));
    return () => watcher.close();
  },
  onStop: (stop) => {
    // Only the first: a second Ctrl-C ends the program at once, whatever it is doing.
    process.once('SIGINT', stop);
    process.once('SIGTERM', stop);
    return () => {
      process.off('SIGINT', stop);
      process.off('SIGTERM', stop);
    };
  },
};
