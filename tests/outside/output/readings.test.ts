import { abs, mean, sqrt, square, std, sum } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { channels, type Input, judgedExample, type Measured, measuredOf, numbers, textOf } from './judged.ts';

/**
 * The uncertainty of what the examples measured, worked out again from the text that was typed: its last digit, its
 * repeats, and the accuracy of the instrument. Formulas: JCGM 100:2008, 4.3.7, 4.2.3, 5.1.2, 5.2.2 and F.2.2.1.
 */

interface Typed {
  readonly value: number;
  /** Place value of the last digit. */
  readonly digit: number;
  readonly unit: string;
}

const typed = (text: string): Typed => {
  const [, digits = '', unit = ''] = /^([-+]?[\d.]+)\s*(.*)$/u.exec(text.trim()) ?? [];
  return { value: Number(digits), digit: 10 ** -(digits.split('.')[1]?.length ?? 0), unit };
};

/** What is assumed where a job describes no instrument, as docs/job-file.md has it. */
const usual: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  meter: { V: '0.5 % + 0.02 V', A: '2 % + 0.05 A', ohm: '1 % + 0.3 ohm' },
  module: { V: '0.05 V' },
  gauge: { psi: '1 psi' },
  tape: { mm: '3 mm' },
  thermometer: { '°C': '1 °C' },
};

/** Half-widths of a text such as `0.5 % + 0.02 V`. */
const accuracyOf = (text: string): { gain: number; offset: number } => {
  const parts = text.split('+').map(typed);
  const share = parts.find(({ unit }) => unit === '%')?.value ?? 0;
  return { gain: share / 100, offset: parts.find(({ unit }) => unit !== '%')?.value ?? 0 };
};

type Tree = Readonly<Record<string, unknown>>;
interface Snapshot {
  readonly id: string;
  readonly readings?: Tree;
}

const packChannels = channels();

/** What was typed for a channel: `position.LF` stands below `position`, `reference` may stand for itself. */
const readingOf = (text: Tree, snapshot: string | null, channel: string): unknown => {
  const found = (text.snapshots as Snapshot[]).find(({ id }) => id === snapshot)?.readings;
  const [base = '', corner = ''] = channel.split('.');
  const own = found?.[base];
  return corner === '' ? own : (own as Tree | undefined)?.[corner];
};

/** The value of one reading and the parts of its uncertainty, from its text alone. */
const byText = (text: Tree, snapshot: string | null, channel: string) => {
  const reading = readingOf(text, snapshot, channel);
  const { by = 'meter', accuracy = null } = packChannels.get(channel.split('.')[0] ?? '') ?? {};
  const own = (text.instruments as Record<string, { accuracy?: string; shows?: string }> | undefined)?.[by];
  const values = (Array.isArray(reading) ? reading : [reading]).map((one) => typed(String(one)));
  const unit = values[0]?.unit ?? '';
  const step = own?.shows === undefined ? null : typed(own.shows);
  const digit = step?.unit === unit ? step.value : Math.max(...values.map((one) => one.digit));
  // What a job states of an instrument is of the quantity that its unit measures.
  const stated = own?.accuracy?.endsWith(` ${unit}`) ? own.accuracy : undefined;
  const plain = values.map(({ value }) => value);
  const repeated = plain.length > 1 ? Number(std(...plain)) / Number(sqrt(plain.length)) : 0;
  return {
    by,
    value: Number(mean(plain)),
    scatter: Math.max(digit / Number(sqrt(12)), repeated),
    ...accuracyOf(stated ?? accuracy ?? usual[by]?.[unit] ?? '0 V'),
  };
};

const rootSum = (values: readonly number[]): number =>
  Number(sqrt(sum([0, ...values].map(Number).map((one) => Number(square(one))))));

/** The standard uncertainty that the errors of instruments bring in: a fixed error that is shared adds up with its sign. */
const accuracyOfAll = (inputs: readonly Input[]): number => {
  const parts = [...new Set(inputs.map(({ instrument }) => instrument))].map((name) => {
    const own = inputs.filter(({ instrument }) => instrument === name);
    const offsets = new Map<string, number>();
    for (const [index, { offset, offsetOf, sensitivity }] of own.entries()) {
      const owner = offsetOf ?? `one of its own: ${index}`;
      offsets.set(owner, (offsets.get(owner) ?? 0) + sensitivity * offset);
    }
    const gain = Number(sum([0, ...own.map((one) => one.sensitivity * one.gain * one.value)]));
    return (rootSum([...offsets.values()]) + Number(abs(gain))) / Number(sqrt(3));
  });
  return rootSum(parts);
};

/** Whether a finding stands for readings of one snapshot, one input a channel, and none of them jumps. */
const isPlain = (text: Tree, { snapshot, channels: read, uncertainty }: Measured): boolean =>
  uncertainty.line === null &&
  uncertainty.inputs.length === read.length &&
  read.every((channel) => {
    const reading = readingOf(text, snapshot, channel);
    return typeof reading === 'string' || Array.isArray(reading);
  });

describe.each(numbers)('shuttle %s', async (number) => {
  const findings = measuredOf(await judgedExample(number));
  const text = textOf(number);

  it('has the uncertainty that its text, its instruments and its packs give', () => {
    const plain = findings.filter((one) => isPlain(text, one));
    expect(plain.length).toBeGreaterThan(5);
    for (const { id, snapshot, channels: read, uncertainty } of plain) {
      for (const [index, channel] of read.entries()) {
        const { by, value, scatter, gain, offset } = byText(text, snapshot, channel);
        const {
          sensitivity: _,
          offsetOf: _owner,
          unit: _unit,
          from: _from,
          ...input
        } = uncertainty.inputs[index] as Input;
        expect([id, input]).toEqual([
          id,
          {
            value: expect.closeTo(value, 12),
            scatter: expect.closeTo(scatter, 12),
            instrument: by,
            offset: expect.closeTo(offset, 12),
            gain: expect.closeTo(gain, 12),
          },
        ]);
      }
    }
  });

  it('expands a single reading to twice the root of its two parts', () => {
    const single = findings.filter(
      (one) => isPlain(text, one) && one.channels.length === 1 && one.uncertainty.beside === 0,
    );
    expect(single.length).toBeGreaterThan(5);
    for (const {
      id,
      snapshot,
      channels: [channel = ''],
      measured,
    } of single) {
      const { value, scatter, gain, offset } = byText(text, snapshot, channel);
      const half = offset + Number(abs(gain * value));
      const expanded = 2 * Number(sqrt(scatter ** 2 + half ** 2 / 3));
      expect([id, measured.value]).toEqual([id, expect.closeTo(value, 12)]);
      expect([id, measured.expanded]).toEqual([id, expect.closeTo(expanded, 12)]);
    }
  });

  it('propagates all else from its inputs, first order', () => {
    for (const { id, coverage, measured, uncertainty } of findings) {
      const { standard, scatter, accuracy, beside, inputs, line } = uncertainty;
      expect([id, standard]).toEqual([id, expect.closeTo(rootSum([scatter, accuracy]), 12)]);
      expect([id, measured.expanded]).toEqual([id, expect.closeTo(coverage * standard, 12)]);
      if (inputs.length === 0) continue;
      expect([id, accuracy]).toEqual([id, expect.closeTo(rootSum([accuracyOfAll(inputs), beside]), 12)]);
      const own = rootSum(inputs.map((one) => one.sensitivity * one.scatter));
      if (line === null) expect([id, scatter]).toEqual([id, expect.closeTo(own, 12)]);
    }
  });
});

describe.each([
  ['left-right', [1, -1]],
  ['front-rear', [0.5, 0.5, -0.5, -0.5]],
  ['diagonal', [1, -1, -1, 1]],
  ['module-against-meter', [1, -1]],
  ['module-against-pins', [1, -1]],
])('what %s compares', async (name, weights) => {
  const judged = await Promise.all(
    numbers.map(async (number) => ({
      text: textOf(number),
      findings: measuredOf(await judgedExample(number)),
    })),
  );
  const compared = judged.flatMap(({ text, findings }) =>
    findings
      .filter((one) => one.check.endsWith(`/${name}`) && isPlain(text, one))
      .map((one) => ({ text, one })),
  );

  it('is weighed, each sensor turned to rise with the body', () => {
    expect(compared).not.toEqual([]);
    for (const { text, one } of compared) {
      const { id, snapshot, channels: read, measured, uncertainty } = one;
      const senses = (text.vehicle as { 'sensor-sense'?: Record<string, string> })['sensor-sense'] ?? {};
      const terms = read.map((channel, place) => {
        const { value } = byText(text, snapshot, channel);
        const falls = senses[channel.split('.')[1] ?? ''] === 'falling';
        const weight = weights[place] ?? 0;
        return { share: weight * (falls ? 5 - value : value), sensitivity: falls ? -weight : weight };
      });
      const value = Number(sum([0, ...terms.map(({ share }) => share)]));
      expect([id, measured.value]).toEqual([id, expect.closeTo(value, 12)]);
      const sensitivities = uncertainty.inputs.map(({ sensitivity }) => sensitivity);
      expect([id, sensitivities]).toEqual([id, terms.map(({ sensitivity }) => sensitivity)]);
    }
  });
});
