import { createHash } from 'node:crypto';
import type { Pack } from '../../../src/core/pack.ts';
import type { Proof } from '../../../src/core/proofs/prove.ts';
import { readPack } from '../../../src/input/pack/read-pack.ts';
import { readProofs } from '../../../src/input/pack/read-proofs.ts';
import { packOf } from '../../support/judge.ts';

/** A pack of a test with its proofs, read as `packs prove` reads them; both halves are YAML below their key. */
export const provedPack = (
  body: string,
  proofs: string,
  others: readonly Pack[] = [],
): { readonly pack: Pack; readonly proofs: readonly Proof[] } => {
  const { definitions, text } = withHead(body, proofs);
  const { root } = readPack(text, 'test.yaml', createHash('sha256').update(text).digest('hex'));
  if (!root) throw new Error('the pack of this test does not read');
  const read = readProofs(text, 'test.yaml', root, definitions, new Map(others.map((one) => [one.id, one])));
  if (read.problems.length > 0) throw new Error(JSON.stringify(read.problems));
  return { pack: definitions, proofs: read.proofs };
};

const withHead = (body: string, proofs: string): { definitions: Pack; text: string } => ({
  definitions: packOf(body),
  text: `pack: bench\nversion: 1.0.0\ntitle: Pack of a test\nproofs:\n${proofs}`,
});

/** A check of the supply, and as many others as a test wants. */
export const supplyCheck = (limits: string, more = ''): string =>
  `checks:\n  - {id: supply, kind: range, title: Supply, of: supply, in: [key-on], basis: {kind: from-memory}, tiers: [${limits}]${more}}`;

/** A proof of the supply by an exact module. */
export const supplyProof = (reading: string, expected: string, about = 'supply'): string =>
  `  - given: {instruments: {module: {accuracy: 0 V, shows: 0.001 V}}, state: key-on, readings: {supply: ${reading}}}
    expect: {${about}: {supply: ${expected}}}
`;
