import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'yaml';
import { projectRoot, runCli } from '../../support/run.ts';

/**
 * The machine output of every example, beside the text that it was judged from. Everything here is what a stranger has:
 * the JSON, the job files and the packs as YAML. Nothing of the program's own code takes part but the call itself.
 */

export interface Input {
  readonly value: number;
  readonly unit: string;
  readonly sensitivity: number;
  readonly scatter: number;
  readonly from: 'resolution' | 'repeats';
  readonly instrument: string;
  readonly offset: number;
  readonly offsetOf: string | null;
  readonly gain: number;
}

export interface Uncertainty {
  readonly standard: number;
  readonly scatter: number;
  readonly accuracy: number;
  readonly beside: number;
  readonly inputs: readonly Input[];
  readonly line: readonly { time: number; clock: number; value: number }[] | null;
}

export interface Limits {
  readonly low: number | null;
  readonly high: number | null;
}

interface Always {
  readonly id: string;
  readonly check: string;
  readonly snapshot: string | null;
  readonly subject: string;
  readonly channels: readonly string[];
  readonly verdict: 'within' | 'out' | 'too-close' | 'not-taken';
  readonly weights: Readonly<Record<string, number>> | null;
  readonly fit: {
    readonly reference: number;
    readonly signals: readonly {
      corner: 'LF' | 'RF' | 'LR' | 'RR';
      value: number;
      expected: number;
      spread: number;
      sense: 1 | -1;
    }[];
    readonly models: readonly {
      model: string;
      family: string;
      place: string | null;
      amount: number;
      bic: number;
      weight: number;
    }[];
  } | null;
}

/** A finding of a quantity. */
export interface Measured extends Always {
  readonly measured: { readonly value: number; readonly unit: string; readonly expanded: number };
  readonly limits: Limits;
  readonly inside: number;
  readonly coverage: number;
  readonly decision: 'guarded' | 'simple';
  readonly uncertainty: Uncertainty;
  readonly tiers: readonly { weight: string; limits: Limits; inside: number }[];
}

export interface Test {
  readonly id: string;
  readonly minutes: number;
  readonly brings: number;
  readonly elapsed: number;
  readonly bits: number;
  readonly saves: number | null;
  readonly savesAlone: number | null;
  readonly price: number | null;
  readonly neededAnyway: number;
  readonly outcomes: readonly {
    id: string;
    chance: number;
    leader: string;
    probability: number;
    likelihoods: readonly number[];
  }[];
}

export interface Judged {
  readonly file: string;
  readonly findings: readonly (Always & { readonly measured: Measured['measured'] | null })[];
  readonly suspects: readonly {
    id: string;
    probability: number;
    rival: string;
    mode: { id: string } | null;
    ledger: readonly { group: string; likelihood: number; rival: number; points: number }[];
    wrongPart: number | null;
    mends: readonly string[];
  }[];
  readonly hypotheses: readonly {
    id: string;
    modes: readonly (string | null)[];
    prior: number;
    probability: number;
  }[];
  readonly evidence: readonly { group: string; likelihoods: readonly number[] }[];
  readonly stakes: { rate: number; downtime: number; escalate: number } | null;
  readonly nextTests: readonly Test[];
  readonly advice: {
    suspect: string;
    wrongPart: number;
    escalate: number;
    worthFixing: number;
    conditions: readonly { id: string; met: boolean; threshold: number | null }[];
  } | null;
}

/** When each example is looked at: before the work is done, where work is done. */
const instants: Readonly<Record<string, string>> = {
  '02': '2026-03-19T18:00',
  '03': '2026-02-24T18:00',
  '05': '2026-02-27T09:30',
  '07': '2026-03-02T18:00',
  '09': '2026-01-22T18:00',
  '10': '2026-02-03T21:30',
  '11': '2026-03-16T12:00',
  '12': '2026-03-05T09:00',
  '13': '2026-03-12T12:00',
  '14': '2026-03-11T08:00',
  '15': '2026-03-09T09:00',
  '16': '2026-03-17T12:00',
  '17': '2026-03-06T18:00',
  '19': '2026-02-10T08:50',
  '21': '2026-03-16T18:00',
  '22': '2026-07-14T18:00',
};

export const numbers = readdirSync(join(projectRoot, 'examples'))
  .flatMap((file) => /^shuttle-(\d\d)-/u.exec(file)?.[1] ?? [])
  .sort();

const fileOf = (number: string): string => {
  const found = readdirSync(join(projectRoot, 'examples')).find((file) =>
    file.startsWith(`shuttle-${number}-`),
  );
  return `examples/${found}`;
};

const judge = async (number: string): Promise<Judged> => {
  const asOf = instants[number];
  if (asOf === undefined) throw new Error(`say when shuttle ${number} is looked at`);
  const { stdout } = await runCli(['check', fileOf(number), '--as-of', asOf, '--format', 'json']);
  return (JSON.parse(stdout) as { jobs: Judged[] }).jobs[0] as Judged;
};

const asked = new Map<string, Promise<Judged>>();

/** The output of one example, which is asked for once. */
export const judgedExample = (number: string): Promise<Judged> => {
  const output = asked.get(number) ?? judge(number);
  asked.set(number, output);
  return output;
};

/** All that is judged by a quantity. */
export const measuredOf = ({ findings }: Judged): readonly Measured[] =>
  findings.filter((one): one is Measured => one.measured !== null);

type Tree = Readonly<Record<string, unknown>>;

/** The text of one example, as any YAML parser reads it. */
export const textOf = (number: string): Tree =>
  parse(readFileSync(join(projectRoot, fileOf(number)), 'utf8'), { schema: 'failsafe' }) as Tree;

/** All channels that the examples' packs declare, by their names: who reads them, and how well where a pack says so. */
export const channels = (): ReadonlyMap<
  string,
  { readonly by: string; readonly accuracy: string | null }
> => {
  const shop = parse(readFileSync(join(projectRoot, 'examples/cornerwise.yaml'), 'utf8')) as {
    packs: string[];
  };
  const all = new Map<string, { by: string; accuracy: string | null }>();
  for (const name of shop.packs) {
    const [id = '', major = ''] = name.split('@');
    const [newest] = readdirSync(join(projectRoot, 'rules', id))
      .filter((file) => file.startsWith(`${major}.`))
      .sort((a, b) => b.localeCompare(a, 'en', { numeric: true }));
    const pack = parse(readFileSync(join(projectRoot, 'rules', id, newest ?? ''), 'utf8')) as {
      channels?: { id: string; by: string; accuracy?: string }[];
    };
    for (const { id: channel, by, accuracy = null } of pack.channels ?? []) {
      const known = all.get(channel);
      all.set(channel, { by, accuracy: known?.accuracy ?? accuracy });
    }
  }
  return all;
};
