import { renderJson } from '../../report/json/json.ts';
import { renderNext } from '../../report/next/page.ts';
import { renderProblems } from '../../report/problems.ts';
import { makeStyle } from '../../report/style.ts';
import { type AsOf, asOfTyped } from '../as-of.ts';
import { judgeFile } from '../judge-file.ts';
import { exitCode } from '../judgement.ts';
import { libraryCache } from '../library-cache.ts';
import { type LookFlags, reportOptions } from '../look.ts';
import type { Shell } from '../shell.ts';

/** What `next` is called with. */
export interface NextFlags extends LookFlags {
  readonly asOf?: string;
  readonly rules: readonly string[];
  readonly format: 'table' | 'json';
}

/** `cornerwise next`: suspects, and the next test worth its minutes. */
export const next = async (file: string, flags: NextFlags, { io, version, finish }: Shell): Promise<void> => {
  const now = io.now();
  const asOf: AsOf = asOfTyped(flags.asOf) ?? (() => now);
  const judged = await judgeFile(file, { asOf, rules: flags.rules }, io, libraryCache());
  if (flags.format === 'json') {
    io.stdout.write(renderJson([judged], judged.sheet?.asOf ?? asOf('UTC') ?? now, version));
    if (judged.problems) finish(exitCode({ judged: [judged] }, undefined));
    return;
  }
  const style = makeStyle(reportOptions(flags, judged.shop, io));
  if (judged.problems) {
    io.stderr.write(renderProblems(file, judged.problems, style));
    finish(exitCode({ judged: [judged] }, undefined));
    return;
  }
  io.stdout.write(renderNext(judged.sheet, file, style));
};
