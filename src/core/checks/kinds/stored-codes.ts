import {
  type CodeMeaning,
  type CodeStatus,
  codeMeanings,
  type Snapshot,
  type TroubleCode,
  type Weight,
} from '../../job.ts';
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
  /** Null: all codes weigh alike. */
  readonly elsewhere: Weight | null;
}

/** What a code means: as typed, else as its failure type byte says. */
const meaningOf = (code: TroubleCode, params: Params): CodeMeaning | null =>
  code.means ?? (code.failureType === null ? null : (params.failureTypes[code.failureType] ?? null));

/** Whether a code was on no list before the first work on the vehicle, while there was such a list. */
const newSinceWork = ({ code }: TroubleCode, { job, works }: Scene): boolean => {
  const [first] = works;
  if (!first) return false;
  const lists = job.snapshots.filter(({ codes, stamp }) => codes !== null && stamp.at < first.stamp.at);
  return lists.length > 0 && !lists.some(({ codes }) => codes?.some((one) => one.code === code));
};

/** Why a code of another module weighs as much as one of the suspension's own; null where it does not. */
const stillWeighs = (
  code: TroubleCode,
  { conditions }: Snapshot,
  scene: Scene,
): 'disables-levelling' | 'new-since-work' | null => {
  if (conditions.words.levelling === 'faulted') return 'disables-levelling';
  return newSinceWork(code, scene) ? 'new-since-work' : null;
};

const say = (code: TroubleCode, params: Params, snapshot: Snapshot, scene: Scene): Verdictless => {
  const byStatus = params.weights[code.status];
  const elsewhere = params.elsewhere !== null && code.storedIn === 'other';
  const still = elsewhere ? stillWeighs(code, snapshot, scene) : null;
  const weight = byStatus && elsewhere && still === null ? (params.elsewhere ?? byStatus) : byStatus;
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
      ...(elsewhere ? [{ kind: 'stored-elsewhere' as const, still }] : []),
      ...(params.elsewhere !== null && code.setBy === 'test' ? [{ kind: 'set-by-test' as const }] : []),
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
  read: (raw, scope) => {
    const params: Params = {
      weights: raw.weights as Params['weights'],
      failureTypes: (raw['failure-types'] ?? {}) as Params['failureTypes'],
      answers: (raw['answered-by-step'] ?? {}) as Params['answers'],
      words: scope.says.out ?? null,
      elsewhere: (raw.elsewhere as Weight | undefined) ?? null,
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
          (snapshot) =>
            snapshot.codes?.length
              ? snapshot.codes.map((code) => say(code, params, snapshot, scene))
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
