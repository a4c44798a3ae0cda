import { expect } from 'vitest';
import { fastTree } from '../../../../src/input/yaml/fast/fast-tree.ts';
import { readByReference } from '../../../../src/input/yaml/read-yaml.ts';

/** Holds the fast reader to the reference parser on a text; whether the fast one read it. */
export const expectSame = (text: string): boolean => {
  const root = fastTree(text);
  if (root === null) return false;
  // A flaw of any kind is one that the fast reader must not have passed over.
  expect({ text, ...readByReference(text) }).toEqual({ text, root, flaws: [] });
  return true;
};
