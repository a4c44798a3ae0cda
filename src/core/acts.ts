/** Things that a danger may forbid: to drive the vehicle, to crank it, to charge or jump its battery, to load it. */
export const acts = ['drive', 'crank', 'charge', 'load'] as const;
export type Act = (typeof acts)[number];
