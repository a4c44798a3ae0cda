import { type CodeMeaning, type CodeStatus, codeMeanings, type TroubleCode, type Weight } from '../../job.ts';
import type { Scene } from '../../pack.ts';
import { sceneOf } from '../../scene.ts';
import { isWork } from '../../steps/staleness.ts';
import type { Kind, Schema } from '../kind.ts';
import { judgeLists, missingList, type Verdictless } from '../lists.ts';
import { notTaken } from '../not-taken.ts';

const weightSchema: Schema = { enum: ['hold', 'look', 'note'] };

interface Params {
  readonly weights: Partial<Readonly<Record<CodeStatus, Weight>>>;
  readonly failureTypes: Readonly<Record<string, CodeMeaning>>;
  readonly answers: Partial<Readonly<Record<CodeMeaning, string>>>;
  readonly words: string | null;
}

/** What a code means: as typed, else as its failure type byte says. */
const meaningOf = (code: TroubleCode, params: Params): CodeMeaning | null =>
  code.means ?? (code.failureType === null ? null : (params.failureTypes[code.failureType] ?? null));

const say = (code: TroubleCode, params: Params, scene: Scene): Verdictless => {
  const weight = params.weights[code.status];
  const means = meaningOf(code, params);
  const step = means === null ? undefined : params.answers[means];
  const worked = scene.job.log.some(isWork);
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

export const storedCodes: Kind = {
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
  read: (raw, scope) => {
    const params: Params = {
      weights: raw.weights as Params['weights'],
      failureTypes: (raw['failure-types'] ?? {}) as Params['failureTypes'],
      answers: (raw['answered-by-step'] ?? {}) as Params['answers'],
      words: scope.says.out ?? null,
    };
    return {
      unit: null,
      limits: Object.entries(params.weights).map(([status, weight]) => `${weight}: any ${status} code`),
      judge: (check, asked) => {
        const scene = sceneOf(asked);
        const findings = judgeLists(
          check,
          scene,
          ({ codes }) => codes !== null,
          ({ codes }) =>
            codes?.length
              ? codes.map((code) => say(code, params, scene))
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
        return findings.length > 0
          ? findings
          : [notTaken(check, scene, nothing, missingList('no-code-list'))];
      },
    };
  },
};
