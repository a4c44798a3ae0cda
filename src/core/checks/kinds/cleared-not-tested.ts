import { neverTested } from '../../codes.ts';
import type { Weight } from '../../job.ts';
import { judgesNoReading, type Kind } from '../kind.ts';
import { judgeLists, missingList, type Verdictless } from '../lists.ts';
import { notTaken } from '../not-taken.ts';

interface ClearedNotTested {
  readonly weight: Weight;
}

/**
 * A status byte with both "test not completed" bits set is what a clear leaves behind: the fault may be there all
 * the same. Source: ISO 14229-1, D.2.
 */
export const clearedNotTested: Kind<ClearedNotTested> = {
  ...judgesNoReading,
  kind: 'cleared-not-tested',
  about: 'Codes whose status byte says that no test has run since the clear: no proof of repair.',
  properties: { weight: { enum: ['hold', 'look', 'note'] } },
  required: ['weight'],
  afterSteps: false,
  read: (raw) => ({ weight: raw.weight as Weight }),
  limits: ({ weight }) => [`${weight}: both "not completed" bits set`],
  judge: ({ check }, { weight }, context) => {
    const findings = judgeLists(
      check,
      context,
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
              words: out ? (check.says.out ?? null) : null,
              remarks: [{ kind: 'code', status, means: null, at: null }],
            };
          }),
    );
    const nothing = { name: 'codes', channels: [] };
    const listed = context.job.snapshots.some(({ codes }) => codes !== null);
    const why = missingList(listed ? 'no-status-byte' : 'no-code-list');
    return findings.length > 0 ? findings : [notTaken(check, context, nothing, why)];
  },
};
