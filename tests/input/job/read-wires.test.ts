import { describe, expect, it } from 'vitest';
import { preparePacks } from '../../../src/core/prepare/prepared-packs.ts';
import { gaugeArea } from '../../../src/core/readings/wire.ts';
import { openJob, readJob } from '../../../src/input/job/read-job.ts';
import { packOf } from '../../support/judge.ts';

const pack = packOf(`channels:
  - {id: feed-drop, title: drop along the feed, quantity: voltage, unit: V, by: meter, depends: []}
  - {id: position, per: corner, title: position, quantity: voltage, unit: V, by: module, depends: []}
  - {id: tank, title: tank, quantity: pressure, unit: psi, by: gauge, depends: []}
checks:
  - {id: drops, kind: range, title: Drop, of: feed-drop, in: [key-on], basis: {kind: common-practice}, tiers: [{weight: look, at-most: 0.2 V}]}`);

const read = (wires: string) =>
  readJob(
    openJob(`worksheet: 1
job: J1
title: Job of a test
opened: 2026-03-02T08:00
zone: UTC
status: open
vehicle: {name: Shuttle 7, layout: four-corner-air, wires: ${wires}}
`),
    { prepared: preparePacks([pack]), shop: null, elsewhere: new Map(), sameDefinition: () => true },
  );

const wireOf = (wire: string) => read(`{feed-drop: ${wire}}`).job?.vehicle.wires.get('feed-drop');
const faults = (wires: string) =>
  read(wires).problems.map(({ code, message, hint }) => [code, message, hint]);

describe('wires of the vehicle', () => {
  it('are kept by channel, in mm², metres and amperes, at 20 °C where nothing else is stated', () => {
    expect(wireOf('{size: 16 AWG, length: 20 ft, current: 4 A}')).toMatchObject({
      area: gaugeArea(16),
      length: { value: expect.closeTo(6.096, 10) },
      current: { value: 4, resolution: 1 },
      celsius: 20,
    });
    expect(wireOf('{size: 2.5 mm², length: 6.1, current: 900 mA, temperature: 104 F}')).toMatchObject({
      area: 2.5,
      length: { value: 6.1 },
      current: { value: 0.9 },
      celsius: expect.closeTo(40, 10),
    });
  });

  it('are none where none are stated', () => {
    expect(read('{}').job?.vehicle.wires.size).toBe(0);
  });

  const good = 'size: 16 AWG, length: 6.1 m, current: 4 A';
  it.each([
    [
      `{feed-drp: {${good}}}`,
      'unknown-channel',
      'no channel is called "feed-drp"',
      'did you mean feed-drop?',
    ],
    [
      `{horn: {${good}}}`,
      'unknown-channel',
      'no channel is called "horn"',
      'name a channel that reads a drop, such as feed-drop',
    ],
    [
      `{tank: {${good}}}`,
      'wrong-value',
      'tank does not read the volts that a wire drops',
      'name a channel that reads a drop, such as feed-drop',
    ],
    [
      `{position: {${good}}}`,
      'wrong-value',
      'position does not read the volts that a wire drops',
      'name a channel that reads a drop, such as feed-drop',
    ],
    [
      '{feed-drop: {size: 16, length: 6.1 m, current: 4 A}}',
      'unknown-unit',
      '"16" may be a gauge or square millimetres',
      'write 16 AWG or 16 mm²',
    ],
    [
      '{feed-drop: {size: 16 AWG, length: 0 m, current: 4 A}}',
      'wrong-value',
      '"0 m" is not above zero',
      'write it like 4 m',
    ],
    [
      '{feed-drop: {size: 16 AWG, length: 6.1 m, current: -4 A}}',
      'wrong-value',
      '"-4 A" is not above zero',
      'write it like 4 A',
    ],
    [
      '{feed-drop: {size: 16 AWG, length: 6.1 m, current: 4 V}}',
      'wrong-unit',
      'V measures voltage, and a current is wanted here',
      'it can be A, mA',
    ],
  ])('%s is refused: %s, %s', (wires, code, message, hint) => {
    expect(faults(wires)).toEqual([[code, message, hint]]);
  });

  it('want size, length and current, and know no other key', () => {
    expect(faults('{feed-drop: {size: 16 AWG}}')).toMatchObject([
      ['missing-key', expect.anything(), expect.anything()],
    ]);
    expect(faults(`{feed-drop: {${good}, lenght: 3 m}}`)).toMatchObject([
      ['unknown-key', expect.anything(), expect.stringContaining('length')],
    ]);
  });
});
