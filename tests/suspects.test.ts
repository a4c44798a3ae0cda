import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { assess } from '../src/core/assess.ts';
import type { Pack } from '../src/core/pack.ts';
import { type PreparedPacks, preparePacks } from '../src/core/prepare/prepared-packs.ts';
import { groupTable } from '../src/core/suspects/evidence/group-row.ts';
import { posterior } from '../src/core/suspects/posterior.ts';
import { hasFailed, proveSuspects } from '../src/core/suspects/proof/prove-suspects.ts';
import type { Ranking } from '../src/core/suspects/ranking.ts';
import { suspectModel } from '../src/core/suspects/suspect-model.ts';
import { openJob, readJob } from '../src/input/job/read-job.ts';
import { emptyShop } from '../src/input/job/shop.ts';
import { newestPacks, openLibrary } from '../src/shell/library.ts';
import { resolvePacks } from '../src/shell/resolve-packs.ts';
import { instant } from './support/judge.ts';
import { projectRoot } from './support/run.ts';

/** The shipped packs on the shipped examples: what leads, and why. */

let packs: readonly Pack[] = [];
let prepared: PreparedPacks = preparePacks([]);
beforeAll(async () => {
  const library = openLibrary([join(projectRoot, 'rules')]);
  packs = await newestPacks(library);
  // The examples are judged with the packs that their shop names.
  const shop = openJob(readFileSync(join(projectRoot, 'examples', 'cornerwise.yaml'), 'utf8'));
  prepared = (await resolvePacks(shop.packs ?? [], library)).prepared;
});

const rate = 85;

const jobOfExample = (name: string, change: (text: string) => string = (text) => text) => {
  const text = change(readFileSync(join(projectRoot, 'examples', `shuttle-${name}.yaml`), 'utf8'));
  const shop = { ...emptyShop, labourRate: rate, currency: 'EUR' };
  const around = { prepared, shop, elsewhere: new Map<string, string>(), sameDefinition: () => true };
  const { job, problems } = readJob(openJob(text), around);
  if (!job) throw new Error(JSON.stringify(problems));
  return job;
};

const ranked = (name: string, asOf: string, change?: (text: string) => string): Ranking | null =>
  assess(jobOfExample(name, change), prepared, instant(asOf)).ranking;

const leading = (name: string, asOf: string, change?: (text: string) => string) => {
  const ranking = ranked(name, asOf, change);
  const [leader] = ranking?.suspects ?? [];
  if (!ranking || !leader) throw new Error('nothing was ranked');
  return { ranking, leader };
};

/** Example, instant, who leads, from which probability on, and the finding that tells most. */
const stories = [
  ['05-rear-too-high', '2026-02-27T09:30', 'sensor.LR', 0.6, 'position-signals/pattern:body@as-found'],
  ['07-left-rear-low', '2026-03-02T18:00', 'linkage.LR', 0.3, 'position-signals/pattern:body@as-found'],
  [
    '09-low-in-the-frost',
    '2026-01-21T12:00',
    'battery',
    0.7,
    'supply-charging/rested-battery:battery@after-the-lights',
  ],
  ['11-leans-to-the-left', '2026-03-16T12:00', 'uneven-body', 0.35, 'position-signals/pattern:body@as-found'],
  [
    '12-four-sensor-codes',
    '2026-03-05T09:00',
    'reference-circuit',
    0.5,
    'position-signals/reference-at-plug:LF@as-found',
  ],
  [
    '13-lamp-since-the-wash',
    '2026-03-12T12:00',
    'sensor-ground',
    0.55,
    'position-signals/sensor-ground-drop:LF@tape-and-ground',
  ],
  ['14-sinks-overnight', '2026-03-11T12:00', 'air-spring.RR', 0.4, 'air-supply/height-drop:RR@morning'],
  [
    '15-over-voltage-code',
    '2026-03-09T09:00',
    'control-module',
    0.6,
    'supply-charging/module-against-pins:supply@as-found-running',
  ],
  [
    '15-over-voltage-code',
    '2026-03-11T18:00',
    'calibration',
    0.5,
    'handover/stored-code:C3A40-54@after-configuration',
  ],
  ['17-hops-at-standstill', '2026-03-06T12:00', 'sensor.LF', 0.6, 'position-signals/steady:LF@as-found'],
  ['19-right-front-leans', '2026-02-10T08:50', 'linkage.RF', 0.3, 'position-signals/pattern:body@as-found'],
  ['21-lamp-out-again', '2026-03-16T12:00', 'network', 0.35, 'handover/stored-code:C3A31@after'],
] as const;

describe('the examples', () => {
  it.each(stories)('%s at %s: %s', (name, asOf, suspect, atLeast, telling) => {
    const { leader } = leading(name, asOf);
    expect(leader.id).toBe(suspect);
    expect(leader.probability).toBeGreaterThan(atLeast);
    const best = [...leader.for];
    // Findings of one group weigh the same; the group that tells most comes first.
    expect(best.slice(0, 4)).toContain(telling);
  });

  it.each([
    ['03-yearly-look', '2026-02-24T18:00'],
    ['05-rear-too-high', '2026-02-28T00:00'],
    ['10-tank-said-to-leak', '2026-02-04T00:00'],
    ['19-right-front-leans', '2026-02-11T00:00'],
  ])('%s: nothing is out, and nobody is suspected', (name, asOf) => {
    expect(ranked(name, asOf)).toBeNull();
  });

  it('02-said-to-lean: nobody stands out', () => {
    expect(leading('02-said-to-lean', '2026-03-19T12:00').leader.probability).toBeLessThan(0.25);
  });

  it('22-rear-sinks-when-loaded: two faults, which no one suspect explains', () => {
    expect(ranked('22-rear-sinks-when-loaded', '2026-07-14T18:00')?.conflict).toEqual([
      'supply-charging/charging-window:battery@running',
      'air-supply/tank-range:tank@as-found',
    ]);
  });

  it('12-four-sensor-codes: the module is not the part to order, and the next test finds the sensor', () => {
    const { ranking } = leading('12-four-sensor-codes', '2026-03-05T09:00');
    expect(ranking.suspects.find(({ id }) => id === 'control-module')?.probability).toBeLessThan(0.05);
    expect(['sensor-ground-drop.LF', 'reference-unplugged']).toContain(ranking.nextTests[0]?.id);
    const withTests = (...tests: readonly string[]) =>
      leading('12-four-sensor-codes', '2026-03-05T09:00', (text) =>
        text.replace(/\nlog:/u, (log) => [log, ...tests].join('\n  - ')),
      );
    const ground = '{at: 2026-03-05T08:40, did: tested, what: sensor-ground-drop.LF, found: low}';
    expect(withTests(ground).ranking.nextTests[0]?.id).toBe('reference-unplugged');
    const unplugged = '{at: 2026-03-05T08:50, did: tested, what: reference-unplugged, found: recovers-RF}';
    const found = withTests(ground, unplugged);
    const sensor = found.ranking.suspects.slice(0, 2).find(({ id }) => id === 'sensor.RF');
    expect(sensor?.probability).toBeGreaterThan(0.4);
    expect(sensor?.for).toContain('test reference-unplugged');
  });

  it('16-lamp-flashes-after-rain: the module is not reached because of the wire, and the wire may be repaired', () => {
    const { leader, ranking } = leading('16-lamp-flashes-after-rain', '2026-03-17T12:00');
    expect(leader).toMatchObject({ id: 'network', isPart: false });
    expect(ranking.suspects.find(({ id }) => id === 'control-module')?.probability).toBeLessThan(0.02);
    expect(ranking.advice?.met).toBe(true);
    const untested = leading('16-lamp-flashes-after-rain', '2026-03-17T12:00', (text) =>
      text.replace(/\n.*- id: asleep\n(?: {4}.*\n)+/u, '\n').replace(/\n.*tested, what: network.*/u, ''),
    ).ranking;
    expect(untested.advice).toMatchObject({ met: false });
    expect(untested.advice?.conditions.find(({ id }) => id === 'confirmed')).toMatchObject({
      lacks: ['network-resistance'],
    });
  });

  it('15-over-voltage-code: seven in ten is not enough without all that confirms a module', () => {
    const { advice } = leading('15-over-voltage-code', '2026-03-09T09:00').ranking;
    const unmet = advice?.conditions.filter(({ met }) => !met);
    expect(unmet).toContainEqual(expect.objectContaining({ id: 'confirmed', lacks: ['reference-unloaded'] }));
    expect(advice?.met).toBe(false);
  });

  it('14-sinks-overnight: a look at the spring, and soap, tell it from its line', () => {
    const { ranking } = leading('14-sinks-overnight', '2026-03-11T12:00');
    const [first, second] = ranking.nextTests.map(({ id }) => id);
    expect(first).toBe('soap-fittings.RR');
    expect(['inspected air-spring.RR', 'inspected air-line.RR']).toContain(second);
  });
});

describe('the shipped suspects', () => {
  it('are all that there are', () => {
    const ids = packs.flatMap((pack) => pack.suspects.map(({ id }) => id)).sort();
    const components =
      'control-module configuration reference-circuit sensor-ground sensor linkage wiring supply-feed module-ground network battery charging-system compressor compressor-feed dryer exhaust-valve valve-block tank pressure-sensor air-line air-spring damper tyres levelling-mode';
    // Those of one axle, of what was fitted or plugged in wrongly, and of instruments.
    const others =
      'sensor-ground standing-drain uneven-body calibration crossed-plugs wrong-sensor meter gauge module-reading';
    expect(ids).toEqual(`${components} ${others}`.split(' ').sort());
  });

  it('work on components that packs declare', () => {
    const known = packs.flatMap((pack) => pack.components.map(({ id }) => id));
    const suspects = packs.flatMap((pack) => pack.suspects);
    // An instrument that reads wrong is no part of the vehicle.
    const worked = suspects.filter(({ repaired }) => repaired).map(({ component }) => component);
    expect(worked.filter((one) => !known.includes(one))).toEqual([]);
  });

  it('rest on checks that packs have', () => {
    const checks = packs.flatMap((pack) => pack.checks.map(({ id }) => id));
    const asked = packs
      .flatMap((pack) => pack.evidence.flatMap(({ sources }) => sources))
      .flatMap((source) =>
        source.kind === 'finding' ? [source.check] : source.kind === 'corners' ? source.checks : [],
      );
    expect(asked.filter((one) => !checks.includes(one))).toEqual([]);
  });

  it('have tests that depend on components that packs declare', () => {
    const known = packs.flatMap((pack) => pack.components.map(({ id }) => id));
    const asked = packs.flatMap((pack) => pack.tests.flatMap(({ depends }) => depends ?? []));
    expect(asked.filter((one) => !known.includes(one))).toEqual([]);
  });

  it('could each be brought over its own threshold on every layout, and be confirmed', () => {
    const proofs = packs.flatMap((pack) => proveSuspects(pack, rate) ?? []);
    const costly = proofs.flatMap((proof) => proof.costly ?? []);
    expect(new Set(costly.map(({ suspect }) => suspect.id)).size).toBeGreaterThan(20);
    expect(costly.filter(({ verdict }) => verdict !== 'over')).toEqual([]);
    expect(proofs.filter(hasFailed)).toEqual([]);
  });

  it('get over it by rows that the ranking counts with', () => {
    const job = jobOfExample('03-yearly-look');
    const { hypotheses, variants, groups, tests } = suspectModel(packs, job.vehicle);
    // Over the ways in which each suspect may fail.
    const joined = (row: readonly number[] = []): number[] =>
      hypotheses.map((_, of) =>
        variants.reduce((sum, one, place) => (one.of === of ? sum + one.part * (row[place] ?? 0) : sum), 0),
      );
    const priors = hypotheses.map(({ prior }) => prior);
    const rows = new Map<string, readonly number[]>();
    for (const { group, chances } of groups) {
      const table = groupTable(group, chances);
      for (const [place, value] of group.values.entries())
        rows.set(`${group.id} shows ${value}`, joined(table[place]));
    }
    for (const {
      id: test,
      test: { outcomes: named },
      outcomes,
    } of tests)
      for (const [place, { id }] of named.entries()) rows.set(`${test} finds ${id}`, joined(outcomes[place]));
    const costly = packs
      .flatMap((pack) => proveSuspects(pack, rate)?.costly ?? [])
      .filter(({ layout }) => layout === job.vehicle.layout);
    const short = costly.flatMap(({ suspect, corner, by, threshold }) => {
      const place = hypotheses.findIndex((one) => one.suspect === suspect && one.place === corner);
      const p = posterior(
        priors,
        by.map((fact) => {
          const row = rows.get(fact);
          if (!row) throw new Error(`no row says that ${fact}`);
          return row;
        }),
      )[place];
      return (p ?? 0) > threshold ? [] : [suspect.id];
    });
    expect(short).toEqual([]);
  });

  it('are told apart by a test wherever readings cannot', () => {
    const blurs = packs.flatMap((pack) => proveSuspects(pack, rate)?.blurs ?? []);
    expect(blurs.map(({ members }) => members.map(({ id }) => id).join(' '))).toEqual(
      expect.arrayContaining(['air-line air-spring']),
    );
    expect(blurs.flatMap(({ left }) => left)).toEqual([]);
  });

  it('are found without a word on any that the vehicle does not have', () => {
    const job = jobOfExample('22-rear-sinks-when-loaded');
    const { hypotheses, tests } = suspectModel(packs, job.vehicle);
    expect(hypotheses.map(({ id }) => id)).not.toContain('tank');
    expect(tests.map(({ id }) => id)).not.toContain('arm-by-hand.LF');
  });
});
