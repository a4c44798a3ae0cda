import { expect } from 'vitest';
import { fastTree } from '../../../../src/input/yaml/fast/fast-tree.ts';
import { readByRecord } from '../../../../src/input/yaml/read-yaml.ts';

/** Holds the fast reader to the parser of record on a text; whether the fast one read it. */
export const expectSame = (text: string): boolean => {
  const root = fastTree(text);
  if (root === null) return false;
  // A flaw of any kind is one that the fast reader must not have passed over.
  expect({ text, ...readByRecord(text) }).toEqual({ text, root, flaws: [] });
  return true;
};
