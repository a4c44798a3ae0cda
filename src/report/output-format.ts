/**
 * The format of the machine output. New members may come at any time; it is counted up when a member goes, or means
 * something else.
 */
export const outputFormat = 1;
