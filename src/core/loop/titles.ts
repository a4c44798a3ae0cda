import { parseKey } from '../key.ts';
import type { Component } from '../pack.ts';

/** A component as people know it: `sensor linkage, LR`. */
export const titleOf = (component: string, components: readonly Component[]): string => {
  const { base, corner, axle } = parseKey(component);
  const place = corner ?? axle;
  const title = components.find(({ id }) => id === base)?.title ?? base;
  return place === null ? title : `${title}, ${place}`;
};
