import { describe, expect, it } from 'vitest';
import { preparePacks } from '../../../src/core/prepare/prepared-packs.ts';
import { wantedConditions } from '../../../src/core/wanted/circumstances.ts';
import { jobOf, packOf } from '../../support/judge.ts';

describe('the conditions that a rate wants', () => {
  it('are a closed system, and the air at each reading', () => {
    const packs = [
      packOf(
        'checks:\n  - {id: leak, kind: leak-down, title: Leak, of: tank, in: [rest], basis: {kind: from-memory}, tiers: [{weight: look, at-most: 3 psi/h}]}',
      ),
    ];
    const wanted = (keys: readonly string[]) =>
      wantedConditions(
        keys,
        'rest',
        jobOf('snapshots: []', packs),
        preparePacks(packs),
        new Set(['bench/leak']),
      );
    expect(wanted(['tank'])).toEqual([
      { name: 'air-system', wants: 'closed' },
      { name: 'air', wants: null },
    ]);
    expect(wanted(['supply'])).toEqual([]);
  });
});
