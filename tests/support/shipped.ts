import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { assess } from '../../src/core/assess.ts';
import type { Finding } from '../../src/core/finding.ts';
import type { Pack } from '../../src/core/pack.ts';
import { preparePacks } from '../../src/core/prepare/prepared-packs.ts';
import type { Worksheet } from '../../src/core/worksheet.ts';
import { evening, instant, jobOf, packOf } from './judge.ts';
import { projectRoot } from './run.ts';

/** A pack as it is shipped: `body-heights@1.0.0`. */
export const shippedPack = (ref: string): Pack => {
  const [id = '', version = ''] = ref.split('@');
  return packOf(readFileSync(join(projectRoot, 'rules', id, `${version}.yaml`), 'utf8'));
};

/** Judges a job's text by packs as they are shipped. */
export const judgeShipped = (packs: readonly Pack[], jobBody: string): Worksheet =>
  assess(jobOf(jobBody, packs), preparePacks(packs, []), instant(evening));

/** The findings of a check on a subject, the oldest first. */
export const findingsOf = (
  { findings }: Pick<Worksheet, 'findings'>,
  check: string,
  subject: string,
): readonly Finding[] => findings.filter((one) => one.check === check && one.subject === subject);
