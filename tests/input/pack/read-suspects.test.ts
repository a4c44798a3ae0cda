import { describe, expect, it } from 'vitest';
import { disagreementsOf } from '../../../src/core/prepare/disagreements.ts';
import { combinedFlaws } from '../../../src/input/pack/combine-packs.ts';
import { readPack } from '../../../src/input/pack/read-pack.ts';
import { packOf } from '../../support/judge.ts';

const head = 'pack: bench\nversion: 1.0.0\ntitle: Pack of a test\nminutes-basis: {kind: from-memory}\n';
const good = `suspects-basis: {kind: from-memory}
something-else: {share: 0.08}
escalate: {amount: 350}
evidence:
  - {id: corners, title: Corners, levelled: true, values: pattern, sources: [{finding: other/pattern}, {corners: [other/rails, other/band]}, {code-means: [signal-range]}]}
  - {id: supply, title: Supply, sources: [{finding: other/supply, subject: supply, in: [running]}]}
  - {id: closer, title: Closer, refines: true, sources: [{corners: [other/rails]}]}
  - {id: codes, title: Codes, sources: [{code-means: [communication]}]}
suspects:
  - id: sensor
    per: corner
    title: sensor
    prior: 4
    wrong-part: {amount: 140, minutes: 40}
    confirm: [{test: arm, found: [stuck, jumps]}]
    expects: [{group: corners, shows: corner, how: usually}, {group: supply, shows: low, how: 0.25}]
  - id: drain
    title: drain
    layouts: [four-corner-air]
    prior: 1.5
    component: standing-load
    wrong-part: {amount: 0, minutes: 30}
    confirm: [{test: pins, found: good, group: supply, shows: out}]
tests:
  - id: arm
    per: corner
    title: Arm
    minutes: 6
    set-up: {id: stands, minutes: 8}
    depends: [sensor]
    outcomes:
      - {id: smooth, title: it follows, how: {sensor: 0.2, others: usually}}
      - {id: stuck, title: it does not}
      - {id: jumps, title: it jumps}
  - id: pins
    title: Pins
    minutes: 12
    group: supply
    after: [{test: arm, found: smooth}]
    layouts: [rear-air-assist]
    outcomes: [{id: good, title: good}, {id: low, title: low, how: {sensor.LF: rarely}}]
`;

describe('what a pack says of suspects', () => {
  const { evidence, suspects, suspectTerms, tests } = packOf(good);

  it('has groups with their sources in order, and values that fit them', () => {
    expect(evidence.map(({ id, space }) => [id, space])).toEqual([
      ['corners', 'pattern'],
      ['supply', 'sides'],
      ['closer', 'corners'],
      ['codes', 'out'],
    ]);
    expect(evidence[0]).toMatchObject({
      levelled: true,
      refines: false,
      sources: [
        { kind: 'finding', check: 'other/pattern', subject: null, states: [] },
        { kind: 'corners', checks: ['other/rails', 'other/band'] },
        { kind: 'codes', means: ['signal-range'] },
      ],
    });
    expect(evidence[1]?.sources).toEqual([
      { kind: 'finding', check: 'other/supply', subject: 'supply', states: ['running'] },
    ]);
    expect(evidence[2]?.refines).toBe(true);
  });

  it('has suspects with words and numbers for how often', () => {
    expect(suspects[0]).toMatchObject({
      id: 'sensor',
      per: 'corner',
      prior: 4,
      layouts: null,
      component: 'sensor',
      wrongPart: { amount: 140, minutes: 40 },
      confirm: [{ test: 'arm', found: ['stuck', 'jumps'], group: null, shows: [] }],
      expects: [
        { group: 'corners', shows: ['corner'], how: 0.85, levelling: null, at: null },
        { group: 'supply', shows: ['low'], how: 0.25, levelling: null, at: null },
      ],
    });
    expect(suspects[1]).toMatchObject({
      per: 'vehicle',
      layouts: ['four-corner-air'],
      component: 'standing-load',
      confirm: [{ test: 'pins', found: ['good'], group: 'supply', shows: ['out'] }],
    });
    expect(suspectTerms).toEqual({ somethingElse: 0.08, escalate: 350, usualRate: null, downtime: 10 });
  });

  it('has tests that tell them apart', () => {
    const [arm, pins] = tests;
    expect(arm).toMatchObject({
      setUp: { id: 'stands', minutes: 8 },
      depends: ['sensor'],
      group: null,
      after: [],
      layouts: null,
    });
    expect(arm?.how.map((how) => Object.fromEntries(how))).toEqual([{ sensor: 0.2, others: 0.85 }, {}, {}]);
    expect(pins).toMatchObject({
      setUp: null,
      depends: null,
      group: 'supply',
      after: [{ test: 'arm', found: ['smooth'] }],
      layouts: ['rear-air-assist'],
    });
    expect(Object.fromEntries(pins?.how[1] ?? [])).toEqual({ 'sensor.LF': 0.1 });
  });

  it('may leave out what it does not know', () => {
    const spare = good.replace('something-else: {share: 0.08}\nescalate: {amount: 350}\n', '');
    expect(packOf(spare).suspectTerms).toEqual({ escalate: null, usualRate: null, downtime: 10 });
    expect(packOf('checks: []\n')).toMatchObject({ evidence: [], suspects: [], suspectTerms: null });
  });
});

describe('packs together', () => {
  it('define each suspect and each group of evidence once', () => {
    const first = packOf(good);
    const second = { ...first, id: 'other', tests: [], components: [], channels: [] };
    const messages = combinedFlaws(disagreementsOf([first, second]), new Map(), 0).map(
      ({ message }) => message,
    );
    expect(messages).toContain('bench and other both define the suspect sensor');
    expect(messages).toContain('bench and other both define the group of evidence corners');
  });
});

describe('what a pack may not say of suspects', () => {
  const wrong: readonly (readonly [string, string, string, string, string])[] = [
    [
      'a word that is none',
      'how: usually}, {group: supply',
      'how: usual}, {group: supply',
      'wrong-value',
      'does not say how often',
    ],
    ['a number that is no probability', 'how: 0.25', 'how: 1.25', 'wrong-value', 'no probability'],
    [
      'shares above 1',
      'shows: low, how: 0.25}',
      'shows: low, how: 0.6}, {group: supply, shows: high, how: 0.6}',
      'wrong-value',
      'adds up to 1.2',
    ],
    [
      'a group that is not there',
      'group: corners, shows',
      'group: corner, shows',
      'unknown-name',
      'no group of evidence "corner"',
    ],
    [
      'a value that the group cannot have',
      'shows: low, how: 0.25',
      'shows: LR, how: 0.25',
      'unknown-name',
      'supply cannot show "LR"',
    ],
    [
      'its own corner, of a group by side',
      'shows: low, how: 0.25',
      'shows: corner, how: 0.25',
      'unknown-name',
      'cannot show "corner"',
    ],
    [
      'a test that is not there',
      'test: arm, found: [stuck',
      'test: arms, found: [stuck',
      'unknown-name',
      'no test "arms"',
    ],
    [
      'an outcome that is not there',
      'found: [stuck, jumps]',
      'found: [stuck, hops]',
      'unknown-name',
      'arm cannot find "hops"',
    ],
    [
      'a confirmation of nothing',
      '{test: arm, found: [stuck, jumps]}',
      '{test: arm}',
      'missing-key',
      'what must be on record',
    ],
    [
      'an outcome of no suspect',
      '{sensor: 0.2, others',
      '{sensors: 0.2, others',
      'unknown-name',
      'no suspect "sensors"',
    ],
    [
      'a corner of a suspect that has none',
      'sensor.LF: rarely',
      'drain.LF: rarely',
      'unknown-name',
      'no suspect "drain.LF"',
    ],
    [
      'a source of two kinds',
      '{finding: other/pattern}',
      '{finding: other/pattern, corners: [other/rails]}',
      'wrong-value',
      'finding and corners',
    ],
    ['a source of none', '{finding: other/pattern}', '{subject: body}', 'wrong-value', 'names nothing'],
    ['two suspects of a name', '  - id: drain', '  - id: sensor', 'duplicate-id', 'another suspect'],
    [
      'numbers without a basis',
      'suspects-basis: {kind: from-memory}\n',
      '',
      'missing-key',
      'without a basis',
    ],
    ['a prior of nothing', 'prior: 1.5', 'prior: 0', 'wrong-value', ''],
    ['a share of everything', 'share: 0.08', 'share: 1', 'wrong-value', ''],
  ];

  it.each(wrong)('%s', (_, from, to, code, message) => {
    expect(good).toContain(from);
    const { pack, problems } = readPack(head + good.replace(from, to), 'test.yaml', '');
    expect(pack).toBeNull();
    expect(problems.map((one) => one.code)).toContain(code);
    expect(problems.map((one) => one.message).join('\n')).toContain(message);
  });

  it('offers the nearest word', () => {
    const { problems } = readPack(
      head + good.replace('how: usually}, {', 'how: usualy}, {'),
      'test.yaml',
      '',
    );
    expect(problems[0]?.hint).toContain('usually');
  });
});
