import { debuglog } from 'node:util';

const note = debuglog('cornerwise');

/**
 * Notes that something the program made itself does not match its hash and is made anew; users see it only where
 * `NODE_DEBUG=cornerwise` asks for it.
 */
export const mistrust = (path: string): void => note('%s does not match its hash and is made anew', path);
