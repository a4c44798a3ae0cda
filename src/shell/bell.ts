/** Wakes a loop that waits: rung by what happens meanwhile, stopped once and for all. */
export interface Bell {
  readonly ring: () => void;
  readonly stop: () => void;
  readonly stopped: () => boolean;
  /** Waits until it is rung or stopped, at most so many milliseconds if given; whether it was rung. */
  readonly wait: (most?: number) => Promise<boolean>;
}

/** A bell; a ring that nobody waited for is heard by the next who waits. */
export const makeBell = (): Bell => {
  let rung = false;
  let over = false;
  let wake = (): void => {};
  return {
    ring: () => {
      rung = true;
      wake();
    },
    stop: () => {
      over = true;
      wake();
    },
    stopped: () => over,
    wait: async (most) => {
      if (!rung && !over) {
        await new Promise<void>((resolve) => {
          const timer = most === undefined ? null : setTimeout(resolve, most);
          wake = () => {
            if (timer) clearTimeout(timer);
            resolve();
          };
        });
      }
      const heard = rung;
      rung = false;
      return heard;
    },
  };
};
