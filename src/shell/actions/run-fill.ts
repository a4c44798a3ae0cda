import type { BriefWorksheet } from '../../core/worksheet.ts';
import { afterChange } from '../../report/entry/after.ts';
import { leftOpen } from '../../report/entry/left-open.ts';
import { wrap } from '../../report/sheet/grid.ts';
import type { Style } from '../../report/style.ts';
import { isStdin } from '../disk/read-stdin.ts';
import { type Ended, runSession } from '../fill/session.ts';
import { type OpenJob, openJobFile } from '../open-job.ts';
import type { Prompter } from '../prompter.ts';
import { type Outcome, type Reading, trouble } from '../save/change-job.ts';
import type { Shell } from '../shell.ts';
import { type ChangeFlags, nowIn, readingFor, refused, sheetOf, styleFor } from './changing.ts';

/** What `fill` is called with. */
export interface FillFlags extends ChangeFlags {
  readonly all?: boolean;
  readonly new?: boolean;
}

const rules =
  'Enter keeps what stands in brackets, else skips; - leaves it out; < goes back; words say why it could not be taken; Ctrl-D stops. Each answer is saved at once.';
const rulesOfPipe =
  'No terminal here: answers are read from standard input, a line each; an empty one keeps what stands in brackets, else skips. Each is saved at once.';

/** How it stands after a session: what it changed, and what is still to take. */
const report = (
  first: BriefWorksheet,
  last: BriefWorksheet,
  { left, stopped, answers }: Ended,
  file: string,
  style: Style,
): string => {
  const saved =
    answers === 0 ? 'Nothing was written.' : `${answers} ${answers === 1 ? 'answer' : 'answers'} saved.`;
  const head = stopped ? `Stopped. ${saved}` : saved;
  const said = [style.text(head), leftOpen(left, last, style)];
  return `\n${afterChange(said, answers > 0 ? first : null, last, file, style)}`;
};

const converse = async (
  file: string,
  first: OpenJob,
  reading: Reading,
  flags: FillFlags,
  prompter: Prompter,
  shell: Shell,
): Promise<void> => {
  const zone = first.read.job?.zone ?? 'UTC';
  const now = (): number => nowIn(zone, flags, shell);
  const style = styleFor(flags, first.found.shop, shell);
  const print = (text: string): void => shell.io.stdout.write(text);
  // Between two questions somebody waits, and only the newest readings are asked about.
  const briefly = (opened: OpenJob): BriefWorksheet | null => sheetOf(opened, now(), false);
  const before = briefly(first);
  if (before === null) {
    refused(
      trouble('no check of this job concerns this vehicle, so nothing is wanted', 'check layout and packs'),
      file,
      flags,
      shell,
    );
    return;
  }
  print(`${wrap(style.text(prompter.isTerminal ? rules : rulesOfPipe), style.options.width).join('\n')}\n`);
  const open = async (known: OpenJob | null): Promise<OpenJob | Extract<Outcome, { kind: 'problems' }>> => {
    const opened = await openJobFile(file, flags.rules, shell.io, reading.libraries, reading.asOf, known);
    if ('problems' in opened) return { kind: 'problems', ...opened };
    const { problems } = opened.read;
    return problems.length > 0 ? { kind: 'problems', problems, shop: opened.found.shop } : opened;
  };
  const ended = await runSession(
    { opened: first, sheet: before },
    {
      file,
      reading,
      prompter,
      style,
      print,
      now,
      toMinute: flags.asOf !== undefined,
      sheetOf: briefly,
      open,
      everything: flags.all ?? false,
      anew: flags.new ?? false,
    },
  );
  if (ended.trouble) refused(ended.trouble, file, flags, shell, 'The last answer was not saved.');
  if (ended.last) print(report(before, ended.last, ended, file, style));
};

/** `cornerwise fill`: asks for just the readings that the packs still want. */
export const fill = async (file: string, flags: FillFlags, shell: Shell): Promise<void> => {
  if (isStdin(file)) {
    refused(trouble('standard input is for the answers', 'name the job file'), file, flags, shell);
    return;
  }
  const reading = readingFor(flags, shell);
  const first = await openJobFile(file, flags.rules, shell.io, reading.libraries, reading.asOf);
  const problems = 'problems' in first ? first.problems : first.read.problems;
  if ('problems' in first || problems.length > 0) {
    const shop = 'problems' in first ? first.shop : first.found.shop;
    refused({ kind: 'problems', problems, shop }, file, flags, shell);
    return;
  }
  const prompter = shell.io.openPrompter();
  try {
    await converse(file, first, reading, flags, prompter, shell);
  } finally {
    prompter.close();
  }
};
