import type { Style } from '../style.ts';
import { wrap } from './grid.ts';

export const general =
  'All limits here are general. The vehicle maker’s service information, local codes and licensed practice come first.';

/** What every report ends with: whose word comes first. */
export const footer = ({ chalk, text, options }: Style): string =>
  chalk.dim(wrap(text(general), options.width).join('\n'));
