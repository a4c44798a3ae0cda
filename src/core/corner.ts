/** The four corners, seen as seated facing forward: left/right, front/rear. */
export const corners = ['LF', 'RF', 'LR', 'RR'] as const;
export type Corner = (typeof corners)[number];

export const isCorner = (text: string): text is Corner => (corners as readonly string[]).includes(text);

/** The corners of one axle or one side, left before right and front before rear. */
export const axles = { front: ['LF', 'RF'], rear: ['LR', 'RR'] } as const;
export type Axle = keyof typeof axles;

export const sides = { left: ['LF', 'LR'], right: ['RF', 'RR'] } as const;
export type Side = keyof typeof sides;

export const isAxle = (text: string): text is Axle => Object.hasOwn(axles, text);

/** The axle that a corner is on. */
export const axleOf = (corner: Corner): Axle => (corner === 'LF' || corner === 'RF' ? 'front' : 'rear');
