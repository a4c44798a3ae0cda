import { type CodeMeaning, type CodeStatus, codeMeanings, type TroubleCode, type Weight } from '../../job.ts';
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
}

/** What a code means: as typed, else as its failure type byte says. */
const meaningOf = (code: TroubleCode, params: StoredCodes): CodeMeaning | null =>
  code.means ?? (code.failureType === null ? null : (params.failureTypes[code.failureType] ?? null));

const say = (code: TroubleCode, params: StoredCodes, context: CheckContext): Verdictless => {
  const weight = params.weights[code.status];
  const means = meaningOf(code, params);
  const step = means === null ? undefined : params.answers[means];
  const worked = context.job.log.some(isWork);
  return {
    subject: code.code,
    verdict: weight ? 'out' : 'within',
    weight: weight ?? 'note',
    words: params.words,
    remarks: [
      { kind: 'code', status: code.status, means },
      // After a replacement such a code only says which procedure has not run yet.
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
  }),
  limits: ({ weights }) => Object.entries(weights).map(([status, weight]) => `${weight}: any ${status} code`),
  judge: ({ check }, parameters, context) => {
    const findings = judgeLists(
      check,
      context,
      ({ codes }) => codes !== null,
      ({ codes }) =>
        codes?.length
          ? codes.map((code) => say(code, parameters, context))
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
