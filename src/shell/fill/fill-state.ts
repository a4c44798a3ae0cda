import type { Instant, State } from '../../core/job.ts';
import type { StillToTake } from '../../core/wanted/still-to-take.ts';
import type { BriefWorksheet } from '../../core/worksheet.ts';
import type { Style } from '../../report/style.ts';
import type { OpenJob } from '../open-job.ts';
import type { Prompter } from '../prompter.ts';
import type { Outcome, Reading } from '../save/change-job.ts';
import type { Question } from './questions.ts';

/** What a session of questions needs from around it. */
export interface Surroundings {
  readonly file: string;
  readonly reading: Reading;
  readonly prompter: Prompter;
  readonly style: Style;
  readonly print: (text: string) => void;
  readonly now: () => Instant;
  readonly toMinute: boolean;
  readonly sheetOf: (opened: OpenJob) => BriefWorksheet | null;
  /** The job as it is now; the one that was known where its file has not changed. */
  readonly open: (known: OpenJob | null) => Promise<OpenJob | Extract<Outcome, { kind: 'problems' }>>;
  /** Ask, too, for what only a test wants, and for what outstanding work would make stale again. */
  readonly everything: boolean;
  /** Begin new snapshots even where a session was interrupted a short while ago. */
  readonly anew: boolean;
}

export interface Given {
  readonly question: Question;
  readonly typed: string;
  /** SHA-256 of the file once it was saved; null where nothing was. */
  readonly saved: string | null;
  /** True where the answer began a snapshot. */
  readonly began: boolean;
}

/** A job and what its packs make of it, until its file changes. */
export interface Known {
  readonly opened: OpenJob;
  readonly sheet: BriefWorksheet | null;
  /** What is still to take, and what can be answered without a reading. */
  readonly still: readonly StillToTake[];
  readonly unread: readonly Question[];
}

/** What a session remembers: what was asked and said, and which snapshot the answers of a state go to. */
export interface Memory {
  readonly given: Given[];
  readonly settled: Set<string>;
  readonly snapshots: Map<State, string>;
  readonly cautioned: Set<string>;
  /** A question to ask before all others, with its old answer: one gone back to, or the next code of a list. */
  next: { readonly question: Question; readonly kept: string } | null;
  heading: string | null;
  /**
   * Ids of the questions without readings that were there when the session began. Those that come up on the way are
   * asked last: nobody is taken from the middle of a scan session.
   */
  first: ReadonlySet<string> | null;
  lastAnswer: Instant | null;
  known: Known | null;
}
