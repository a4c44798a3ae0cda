import type { Instant } from '../../core/job.ts';
import type { PackNotice } from '../../core/sweep/pack-notices.ts';
import type { GoneRow, Row } from '../../core/sweep/row.ts';
import type { Totals } from '../../core/sweep/totals.ts';
import type { ReportOptions } from '../style.ts';

/** What a sweep left out of its rows, and why. */
export interface LeftOut {
  /** Closed jobs that nobody asked for. */
  readonly closed: number;
  /** YAML files in the folders that are no jobs. */
  readonly notJobs: number;
  /** Jobs that the filters of the call did not want. */
  readonly filtered: number;
  /** Rows that did not change, where only changes are wanted. */
  readonly unchanged: number;
}

/** All that a sweep's output is made of. Rows come one by one, in the order in which they are to be printed. */
export interface SweepRendering {
  readonly rows: Iterable<Row>;
  /** Jobs of the earlier sweep that this one did not meet. */
  readonly gone: readonly GoneRow[];
  /** Of all rows, whether printed or not. */
  readonly totals: Totals;
  readonly leftOut: LeftOut;
  /** What is to be known of packs before the rows are believed. */
  readonly notices: readonly PackNotice[];
  readonly asOf: Instant;
  /** The zone in which the output itself tells times. */
  readonly zone: string;
  /** What ends within so many days is told. */
  readonly withinDays: number;
  /** How far the sweep came where it was stopped; null where it is whole. */
  readonly stopped: { readonly done: number; readonly of: number } | null;
  /** Whether it was compared with an earlier one. */
  readonly compared: boolean;
  readonly version: string;
  readonly options: ReportOptions;
}

/** Gives the output piece by piece, so that a long one is never held as a whole. */
export type SweepRenderer = (rendering: SweepRendering) => Iterable<string>;
