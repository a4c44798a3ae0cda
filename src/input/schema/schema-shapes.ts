import type { Schema } from '../../core/checks/kind.ts';
import { corners, isCorner } from '../../core/corner.ts';
import {
  closings,
  codeMeanings,
  codePlaces,
  codeStores,
  conditionWords,
  lampStates,
  layouts,
  states,
  symptomWords,
  vehicleWords,
  verbs,
} from '../../core/job.ts';
import { heightBases } from '../../core/readings/heights.ts';
import { offsetKinds } from '../../core/readings/instruments.ts';
import { otherStates } from '../typed/typed-state.ts';

/** A closed map: unknown keys are errors, `x-…` is the user's own room. */
export const map = (
  properties: Readonly<Record<string, Schema>>,
  required: readonly string[] = [],
): Schema => ({
  type: 'object',
  additionalProperties: false,
  required,
  properties,
  patternProperties: { '^x-': {} },
});

export const list = (items: Schema, minItems = 0): Schema => ({ type: 'array', items, minItems });
export const text: Schema = { type: 'string', minLength: 1, maxLength: 4000 };
export const name: Schema = { type: 'string', minLength: 1, maxLength: 120 };
export const oneOf = (words: readonly string[]): Schema => ({ enum: [...words] });

/** Words of a list, and others that are understood as one of them; only the words of the list are offered. */
const understood = (words: readonly string[], others: readonly string[]): Schema => ({
  enum: [...words, ...others],
  'x-offered': [...words],
});

/** Corners with their letters the other way round. */
const otherCorners = corners.map((corner) => [...corner].reverse().join('')).filter((one) => !isCorner(one));

/** Corners as people spell them, front or side first and in any case; files keep one spelling. */
const spelt = `^(?!${corners.join('|')})(?:[LlRr][FfRr]|[FfRr][LlRr])$`;

/** Times, quantities and readings are texts whose form the readers judge, so that their errors can say more. */
export const time: Schema = { type: 'string', 'x-expected': 'a time such as 2026-03-02T08:15' };
export const quantity: Schema = {
  type: ['string', 'number'],
  'x-expected': 'a value with its unit, such as 2.48 V',
};
export const amount: Schema = { type: 'number', minimum: 0, 'x-expected': 'an amount such as 138 or 138.50' };
export const duration: Schema = { type: 'string', 'x-expected': 'a duration such as P7D' };

const leads: Schema = map({ from: name, to: name }, ['from', 'to']);

const readingParts = {
  value: quantity,
  by: name,
  low: quantity,
  high: quantity,
  at: leads,
  why: text,
};

const oneReading: Schema = {
  type: ['string', 'number', 'array', 'object'],
  items: quantity,
  'x-expected': 'a reading such as 2.48 V',
  additionalProperties: false,
  properties: readingParts,
};

/** One reading in any of its forms; the corners of a channel nest in the same place. */
export const reading: Schema = {
  type: ['string', 'number', 'array', 'object'],
  items: quantity,
  'x-expected': 'a reading such as 2.48 V',
  additionalProperties: false,
  properties: {
    ...readingParts,
    ...Object.fromEntries(corners.map((corner) => [corner, oneReading])),
  },
  patternProperties: { [spelt]: oneReading },
};

export const conditions: Schema = map({
  ...Object.fromEntries(Object.entries(conditionWords).map(([key, words]) => [key, oneOf(words)])),
  air: quantity,
  rested: quantity,
  asleep: { ...quantity, 'x-expected': 'a time such as 40 min' },
  barometer: quantity,
  altitude: quantity,
});

const code: Schema = {
  ...map(
    {
      code: {
        type: ['string', 'number'],
        'x-expected': 'a code such as C1A21, or its two bytes such as 0x5A21',
      },
      status: {
        type: ['string', 'number'],
        'x-expected': 'stored, present, pending, history, or a status byte such as 0x28',
      },
      means: oneOf(codeMeanings),
      at: oneOf(codePlaces),
      in: oneOf(codeStores),
      'set-by': oneOf(['test']),
      text,
    },
    ['code'],
  ),
  type: ['object', 'string'],
  'x-expected': 'a code such as C1A21 or C1A21:stored',
};

export const snapshotProperties: Readonly<Record<string, Schema>> = {
  id: { ...name, pattern: '^[A-Za-z0-9][A-Za-z0-9._-]*$', 'x-expected': 'a short name such as as-found' },
  at: time,
  state: understood(states, otherStates),
  conditions,
  readings: { type: 'object', additionalProperties: reading },
  lamp: oneOf(lampStates),
  codes: {
    ...list(code),
    type: ['array', 'string'],
    'x-expected': 'a list such as [C1A21, C1A40-54], or none',
  },
  note: text,
};

export const snapshot: Schema = map(snapshotProperties, ['state']);

/** What may stand at the top of a file that holds one snapshot. */
export const bareSnapshot: Readonly<Record<string, Schema>> = Object.fromEntries(
  ['at', 'state', 'conditions', 'readings', 'lamp', 'codes'].map((key) => [
    key,
    snapshotProperties[key] ?? {},
  ]),
);

export const logEntry: Schema = map(
  {
    at: time,
    did: oneOf(verbs),
    what: name,
    found: name,
    /** Which of these fits which verb the reader tells. */
    result: oneOf(['passed', 'failed', ...closings]),
    for: text,
    to: text,
    reason: text,
    /** Why it was written although its hold point was not clear. */
    despite: text,
    by: name,
    note: text,
  },
  ['at', 'did'],
);

const symptom: Schema = map(
  Object.fromEntries(
    Object.entries(symptomWords).map(([key, words]) => [
      key,
      key === 'where' ? understood(words, otherCorners) : oneOf(words),
    ]),
  ),
);

/** One thing that the driver says, or a list of them. */
export const symptoms: Schema = { ...symptom, type: ['object', 'array'], items: symptom };

const perCorner = (schema: Schema): Schema => {
  const own = map(Object.fromEntries(corners.map((corner) => [corner, schema])));
  return { ...own, patternProperties: { ...(own.patternProperties as object), [spelt]: schema } };
};

export const instruments: Schema = {
  type: 'object',
  additionalProperties: map({
    accuracy: {
      type: ['string', 'number', 'array'],
      items: { type: 'string' },
      'x-expected': 'an accuracy such as 0.5 % + 0.02 V',
    },
    shows: quantity,
    offset: oneOf(offsetKinds),
  }),
};

export const vehicle: Schema = {
  ...map(
    {
      name,
      layout: oneOf(layouts),
      fitted: list(understood(corners, otherCorners), 1),
      ...Object.fromEntries(Object.entries(vehicleWords).map(([key, words]) => [key, oneOf(words)])),
      'sensor-sense': perCorner(oneOf(['rising', 'falling'])),
      'sensor-gain': oneOf(['equal']),
      tank: oneOf(['not-fitted']),
      air: map({
        'rated-pressure': quantity,
        'tank-volume': quantity,
        'rated-current': quantity,
        'shared-with-brakes': oneOf(['yes', 'no']),
      }),
      'service-data': list(
        map(
          {
            check: name,
            of: name,
            weight: oneOf(['hold', 'look', 'note']),
            between: { type: 'array', items: quantity, minItems: 2, maxItems: 2 },
            'at-least': quantity,
            'at-most': quantity,
            source: text,
          },
          ['check', 'source'],
        ),
      ),
      heights: perCorner(
        map(
          {
            at: list(quantity, 2),
            mm: list({ type: 'number' }, 2),
            from: oneOf(heightBases),
          },
          ['at', 'mm', 'from'],
        ),
      ),
      /** By channel; what is not one the reader tells, which knows the packs. */
      wires: {
        type: 'object',
        additionalProperties: map(
          {
            size: {
              type: ['string', 'number'],
              'x-expected': 'a wire size such as 16 AWG or 1.5 mm²',
            },
            length: quantity,
            current: quantity,
            temperature: quantity,
          },
          ['size', 'length', 'current'],
        ),
      },
    },
    ['name'],
  ),
  type: ['object', 'string'],
  'x-expected': '{name: …, layout: …}, or a name alone such as Shuttle 7',
};
