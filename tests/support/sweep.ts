import type { Row } from '../../src/core/sweep/row.ts';
import type { Outcome } from './run.ts';

/** Readings with nothing wrong in them, but for what a test puts in their place. */
const readings = {
  supply: '12.4 V',
  battery: '12.65 V',
  reference: '5.00 V',
  LF: '2.48 V',
  RF: '2.52 V',
  LR: '2.45 V',
  RR: '2.51 V',
};

export interface JobParts {
  readonly job?: string;
  readonly name?: string;
  readonly status?: string;
  readonly opened?: string;
  readonly readings?: Partial<typeof readings>;
  /** Lines that stand at the end of the file. */
  readonly more?: readonly string[];
}

/** The text of a job for a sweep: one key-on snapshot, and whatever else a test wants. */
export const jobText = ({
  job = 'S04-1',
  name = 'Shuttle 4',
  status = 'open',
  opened = '2026-03-02T07:00',
  readings: own = {},
  more = [],
}: JobParts = {}): string => {
  const { supply, battery, reference, LF, RF, LR, RR } = { ...readings, ...own };
  return `${[
    'worksheet: 1',
    `job: ${job}`,
    'title: Sits low',
    `opened: ${opened}`,
    `status: ${status}`,
    `vehicle: {name: ${name}, layout: four-corner-air, battery: flooded, charging: fixed, sensor-gain: equal}`,
    'snapshots:',
    '  - id: as-found',
    '    at: 2026-03-02T08:00',
    '    state: key-on',
    '    conditions: {floor: level, load: empty, air: 8 °C, levelling: disabled, maintainer: off}',
    `    readings: {supply: ${supply}, battery: ${battery}, reference: ${reference}, position: {LF: ${LF}, RF: ${RF}, LR: ${LR}, RR: ${RR}}}`,
    '    lamp: off',
    '    codes: []',
    ...more,
  ].join('\n')}\n`;
};

/** A job with one corner pinned low, which holds the vehicle. */
export const pinned = (parts: JobParts = {}): string =>
  jobText({ ...parts, readings: { LR: '0.10 V', ...parts.readings } });

/** The lines of ndjson as values. */
export const linesOf = ({ stdout }: Pick<Outcome, 'stdout'>): (Row & Record<string, never>)[] =>
  stdout
    .split('\n')
    .filter((line) => line !== '')
    .map((line) => JSON.parse(line));

/** What changed, by file, in the words that a reader sees. */
export const changesIn = (outcome: Pick<Outcome, 'stdout'>): Record<string, string[]> =>
  Object.fromEntries(
    linesOf(outcome).map(({ file, change }) => [file, change ? [change.kind, ...change.says] : []]),
  );
