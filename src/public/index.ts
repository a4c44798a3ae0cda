import type { Problem as LocatedProblem } from '../input/problem.ts';
import { schemas as allSchemas } from '../input/schema/all-schemas.ts';
import { renderProblems } from '../report/problems.ts';
import { makeStyle } from '../report/style.ts';
import { openShopOf } from './open-shop.ts';
import { optionsOf } from './render.ts';
import type { Look, Problem, Schema, SchemaName, Shop, ShopOptions } from './types.ts';

export type * from './generated/output.ts';
export type * from './types.ts';

/**
 * Opens a shop: its file, and the rule folders in which packs are looked for. Packs are read when a job first asks for
 * them, and once.
 */
export const openShop = (options: ShopOptions = {}): Shop => openShopOf(options);

/**
 * Problems as people read them: place, message, the line itself and what to do.
 *
 * @param file the file that was read, for problems that name no other
 */
export const problemsText = (
  problems: readonly Problem[],
  file: string,
  look: Pick<Look, 'width' | 'colour' | 'ascii'> = {},
): string =>
  // Outside, a code is any text: a later version may know more of them.
  renderProblems(file, problems as readonly LocatedProblem[], makeStyle(optionsOf(look, null)));

/** The JSON Schemas of what is read (`job`, `pack`, `shop`) and of the machine output (`output`, `sweep`). */
export const schemas: Readonly<Record<SchemaName, Schema>> = allSchemas;
