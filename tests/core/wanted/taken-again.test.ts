import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { assessBriefly } from '../../../src/core/assess.ts';
import { stillToTake } from '../../../src/core/wanted/still-to-take.ts';
import { questionsOf } from '../../../src/shell/fill/questions.ts';
import { realIo } from '../../../src/shell/io.ts';
import { libraryCache } from '../../../src/shell/library-cache.ts';
import { shippedRules } from '../../../src/shell/package-folder.ts';
import { readJobText } from '../../../src/shell/read-job-text.ts';
import { shopFor } from '../../../src/shell/shop-file.ts';
import { projectRoot } from '../../support/run.ts';

const folder = join(projectRoot, 'examples');
const io = realIo();
const files = readdirSync(folder).filter((name) => /^shuttle-.*\.yaml$/u.test(name));

describe('after work', () => {
  it.each(files)('everything that is to be taken again in %s is asked for', async (name) => {
    const found = await shopFor(folder, io);
    const read = await readJobText(
      readFileSync(join(folder, name), 'utf8'),
      found,
      libraryCache()([shippedRules()]),
    );
    const { job, prepared } = read;
    if (!job) throw new Error(JSON.stringify(read.problems));
    // The job as it stood after each entry of its log, so that work at any point is met.
    for (const { stamp } of job.log) {
      const sheet = assessBriefly(job, prepared, stamp.at);
      const still = stillToTake(sheet, prepared);
      for (const { id, because, state } of sheet.steps) {
        if (!id.startsWith('readings/') || state === 'done' || state === 'not-needed') continue;
        const wanted = because.flatMap((one) =>
          one.kind === 'readings-stale' || one.kind === 'readings-missing' ? one.channels : [],
        );
        const own = still.find((one) => `readings/${one.state}` === id);
        const asked = own ? questionsOf(own, prepared.channelById).map(({ name: of }) => of) : [];
        for (const key of wanted) {
          const isAsked = asked.some((of) =>
            key === 'lamp' ? of.kind === 'lamp' : of.kind === 'reading' && of.key === key,
          );
          expect({ key, step: id, isAsked }).toEqual({ key, step: id, isAsked: true });
        }
      }
    }
  });
});
