import {
  type CodeMeaning,
  type CodeStatus,
  codeMeanings,
  type Snapshot,
  type TroubleCode,
  type Weight,
} from '../../job.ts';
import { isWork } from '../../steps/staleness.ts';
import type { CheckContext } from '../check-context.ts';
import { judgesNoReading, type Kind, type Schema } from '../kind.ts';
import { judgeLists, missingList, type Verdictless } from '../lists.ts';
import { notTaken } from '../not-taken.ts';

const weightSchema: Schema = { enum: ['hold', 'look', 'note'] };

interface StoredCodes {
  readonly weights: Partial<Readonly<Record<CodeStatus, Weight>>>;
  readonly failureTypes: Readonly<Record<string, CodeMeaning>>;
  readonly answers: Partial<Readonly<Record<CodeMeaning, string>>>;
  readonly words: string | null;
  /** The weight of another module's codes; null where all codes weigh alike. */
  readonly elsewhere: Weight | null;
}

/** What a code means: as typed, else as its failure type byte says. */
const meaningOf = (code: TroubleCode, params: StoredCodes): CodeMeaning | null =>
  code.means ?? (code.failureType === null ? null : (params.failureTypes[code.failureType] ?? null));

/** Whether a code was on no list before the first work on the vehicle, while there was such a list. */
const newSinceWork = ({ code }: TroubleCode, { job, works }: CheckContext): boolean => {
  const [first] = works;
  if (!first) return false;
  const lists = job.snapshots.filter(({ codes, stamp }) => codes !== null && stamp.at < first.stamp.at);
  return lists.length > 0 && !lists.some(({ codes }) => codes?.some((one) => one.code === code));
};

/** Why a code of another module weighs as much as one of the suspension's own; null where it does not. */
const stillWeighs = (
  code: TroubleCode,
  { conditions }: Snapshot,
  context: CheckContext,
): 'disables-levelling' | 'new-since-work' | null => {
  if (conditions.words.levelling === 'faulted') return 'disables-levelling';
  return newSinceWork(code, context) ? 'new-since-work' : null;
};

const say = (
  code: TroubleCode,
  params: StoredCodes,
  snapshot: Snapshot,
  context: CheckContext,
): Verdictless => {
  const byStatus = params.weights[code.status];
  const elsewhere = params.elsewhere !== null && code.storedIn === 'other';
  const still = elsewhere ? stillWeighs(code, snapshot, context) : null;
  const weight = byStatus && elsewhere && still === null ? (params.elsewhere ?? byStatus) : byStatus;
  const means = meaningOf(code, params);
  const step = means === null ? undefined : params.answers[means];
  const worked = context.job.log.some(isWork);
  return {
    subject: code.code,
    verdict: weight ? 'out' : 'within',
    weight: weight ?? 'note',
    words: params.words,
    remarks: [
      { kind: 'code', status: code.status, means, at: code.at },
      // After a replacement such a code only says which procedure has not run yet.
      ...(elsewhere ? [{ kind: 'stored-elsewhere' as const, still }] : []),
      ...(params.elsewhere !== null && code.setBy === 'test' ? [{ kind: 'set-by-test' as const }] : []),
      ...(step && worked ? [{ kind: 'answered-by-step' as const, step }] : []),
    ],
  };
};

export const storedCodes: Kind<StoredCodes> = {
  ...judgesNoReading,
  kind: 'stored-codes',
  about: 'Every code of the newest list, by its status; the lamp does not enter into it.',
  properties: {
    weights: {
      type: 'object',
      additionalProperties: false,
      minProperties: 1,
      properties: {
        present: weightSchema,
        stored: weightSchema,
        pending: weightSchema,
        history: weightSchema,
      },
    },
    /** The weight of codes that another module stores, unless they are new since the work or levelling is faulted. */
    elsewhere: weightSchema,
    'failure-types': { type: 'object', additionalProperties: { enum: [...codeMeanings] } },
    'answered-by-step': {
      type: 'object',
      additionalProperties: false,
      properties: Object.fromEntries(codeMeanings.map((meaning) => [meaning, { type: 'string' }])),
    },
  },
  required: ['weights'],
  afterSteps: false,
  read: (raw, scope) => ({
    weights: raw.weights as StoredCodes['weights'],
    failureTypes: (raw['failure-types'] ?? {}) as StoredCodes['failureTypes'],
    answers: (raw['answered-by-step'] ?? {}) as StoredCodes['answers'],
    words: scope.says.out ?? null,
    elsewhere: (raw.elsewhere as Weight | undefined) ?? null,
  }),
  limits: ({ weights }) => Object.entries(weights).map(([status, weight]) => `${weight}: any ${status} code`),
  judge: ({ check }, parameters, context) => {
    const findings = judgeLists(
      check,
      context,
      ({ codes }) => codes !== null,
      (snapshot) =>
        snapshot.codes?.length
          ? snapshot.codes.map((code) => say(code, parameters, snapshot, context))
          : [
              {
                subject: 'codes',
                verdict: 'within',
                weight: 'hold',
                words: 'the list is empty',
                remarks: [],
              },
            ],
    );
    const nothing = { name: 'codes', channels: [] };
    return findings.length > 0 ? findings : [notTaken(check, context, nothing, missingList('no-code-list'))];
  },
};
