import { describe, expect, it } from 'vitest';
import type { WireRemark } from '../../../src/core/finding.ts';
import { findingOf, judge, keyOn, said } from '../../support/judge.ts';

const pack = `channels:
  - {id: feed-drop, title: drop along the feed, quantity: voltage, unit: V, by: meter, depends: [battery]}
  - {id: ground-drop, title: drop along the ground, quantity: voltage, unit: mV, by: meter, depends: [battery]}
checks:
  - {id: drops, kind: range, title: Drop, of: feed-drop, in: [key-on], basis: {kind: common-practice}, tiers: [{weight: hold, at-most: 0.5 V}, {weight: look, at-most: 0.2 V}]}
  - {id: grounds, kind: range, title: Drop, of: ground-drop, in: [key-on], basis: {kind: common-practice}, tiers: [{weight: look, at-most: 0.1 V}]}`;

const wire = '{size: 1.5 mm², length: 6.10 m, current: 4.00 A}';
const copper = (4 * 0.017_241 * 6.1) / 1.5;

const dropOf = (reading: string, wires: string, check = 'drops', channel = 'feed-drop') =>
  findingOf(
    judge(
      pack,
      `vehicle: {name: Shuttle 7, layout: four-corner-air, wires: ${wires}}
instruments: {meter: {accuracy: 0.01 V, shows: 0.01 V}}
${keyOn(`{${channel}: ${reading}}`)}`,
    ),
    check,
    channel,
  );

const remark = (reading: string, wires: string): WireRemark => {
  const [found] = dropOf(reading, wires).remarks;
  if (found?.kind !== 'wire') throw new Error('nothing is said of the wire');
  return found;
};

describe('what the wire itself drops', () => {
  it('stands beside the reading, and changes no verdict', () => {
    const finding = dropOf('0.45 V', `{feed-drop: ${wire}}`);
    expect(said(finding)).toBe('out look');
    expect(said(dropOf('0.45 V', '{}'))).toBe('out look');
    expect(finding.remarks).toEqual([
      {
        kind: 'wire',
        copper: expect.closeTo(copper, 10),
        current: 4,
        celsius: 20,
        leaves: expect.closeTo(0.45 - copper, 10),
        expanded: expect.closeTo(
          2 *
            Math.hypot(
              0.01 / Math.sqrt(3),
              0.01 / Math.sqrt(12),
              (copper * Math.hypot(0.01 / 6.1, 0.01 / 4)) / Math.sqrt(12),
            ),
          10,
        ),
      },
    ]);
  });

  it('is more in a warm wire', () => {
    const warm = remark(
      '0.45 V',
      `{feed-drop: {size: 1.5 mm², length: 6.10 m, current: 4.00 A, temperature: 70 °C}}`,
    );
    expect(warm.copper / copper).toBeCloseTo(1 + 50 * 0.003_93, 10);
    expect(warm.celsius).toBe(70);
  });

  it('is not said of a channel whose wire is not described', () => {
    expect(dropOf('0.45 V', '{}').remarks).toEqual([]);
    expect(dropOf('0.45 V', `{ground-drop: ${wire}}`).remarks).toEqual([]);
  });

  it('is in volts, whatever the channel is in', () => {
    const [found] = dropOf('300 mV', `{ground-drop: ${wire}}`, 'grounds', 'ground-drop').remarks;
    expect(found).toMatchObject({ kind: 'wire', leaves: expect.closeTo(0.3 - copper, 10) });
  });

  it('goes by the end that is judged where the drop jumps', () => {
    const finding = dropOf('{low: 0.30 V, high: 0.60 V}', `{feed-drop: ${wire}}`);
    expect(finding.remarks.map(({ kind }) => kind)).toEqual(['jumps', 'wire']);
    expect(finding.remarks[1]).toMatchObject({ leaves: expect.closeTo(0.6 - copper, 10) });
  });
});
