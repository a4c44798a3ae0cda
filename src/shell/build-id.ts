declare const CORNERWISE_BUILD: string | undefined;

/** Which build of the program this is: what an older one kept is not to be trusted. The bundle puts it in. */
export const buildId: string = typeof CORNERWISE_BUILD === 'string' ? CORNERWISE_BUILD : 'unbuilt';
