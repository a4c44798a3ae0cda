import { neverTested } from '../../codes.ts';
import type { Weight } from '../../job.ts';
import { sceneOf } from '../../scene.ts';
import type { Kind } from '../kind.ts';
import { judgeLists, missingList, type Verdictless } from '../lists.ts';
import { notTaken } from '../not-taken.ts';

/**
 * A status byte with both "test not completed" bits set is what a clear leaves behind: the fault may be there all
 * the same. Source: ISO 14229-1, D.2.
 */
export const clearedNotTested: Kind = {
  kind: 'cleared-not-tested',
  about: 'Codes whose status byte says that no test has run since the clear: no proof of repair.',
  properties: { weight: { enum: ['hold', 'look', 'note'] } },
  required: ['weight'],
  read: (raw, scope) => ({
    unit: null,
    limits: [`${raw.weight}: both "not completed" bits set`],
    judge: (check, asked) => {
      const scene = sceneOf(asked);
      const weight = raw.weight as Weight;
      const findings = judgeLists(
        check,
        scene,
        ({ codes }) => codes !== null,
        ({ codes }) =>
          (codes ?? [])
            .filter(({ mask }) => mask !== null)
            .map(({ code, mask, status }): Verdictless => {
              const out = neverTested(mask ?? 0);
              return {
                subject: code,
                verdict: out ? 'out' : 'within',
                weight,
                words: out ? (scope.says.out ?? null) : null,
                remarks: [{ kind: 'code', status, means: null }],
              };
            }),
      );
      const nothing = { name: 'codes', channels: [] };
      const listed = scene.job.snapshots.some(({ codes }) => codes !== null);
      const why = missingList(listed ? 'no-status-byte' : 'no-code-list');
      return findings.length > 0 ? findings : [notTaken(check, scene, nothing, why)];
    },
  }),
};
