import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { assess, assessBriefly } from '../../../src/core/assess.ts';
import { layouts } from '../../../src/core/job.ts';
import type { Pack } from '../../../src/core/pack.ts';
import { preparedFor, preparePacks } from '../../../src/core/prepare/prepared-packs.ts';
import { prepareVehicle } from '../../../src/core/prepare/prepared-vehicle.ts';
import { openJob, readJob } from '../../../src/input/job/read-job.ts';
import { emptyShop } from '../../../src/input/job/shop.ts';
import { standingOf } from '../../../src/report/sweep/standing.ts';
import { newestPacks, openLibrary } from '../../../src/shell/library.ts';
import { projectRoot } from '../../support/run.ts';

let packs: readonly Pack[] = [];
beforeAll(async () => {
  packs = await newestPacks(openLibrary([join(projectRoot, 'rules')]));
});

const folder = join(projectRoot, 'examples');
const texts = readdirSync(folder)
  .filter((name) => name.startsWith('shuttle-'))
  .map((name) => readFileSync(join(folder, name), 'utf8'));

const shop = { ...emptyShop, labourRate: 85, currency: 'EUR', zone: 'Europe/Dublin' };

/** Every value that is reached from one, itself included. */
const reached = (value: unknown, found: Set<unknown> = new Set()): ReadonlySet<unknown> => {
  if (found.has(value)) return found;
  found.add(value);
  if (value instanceof Map) for (const one of value.entries()) reached(one[1], found);
  else if (value instanceof Set) for (const one of value) reached(one, found);
  else if (typeof value === 'object' && value !== null)
    for (const key of Reflect.ownKeys(value)) {
      const { get, value: own } = Object.getOwnPropertyDescriptor(value, key) ?? {};
      if (get) throw new Error(`${String(key)} is worked out when it is asked for`);
      reached(own, found);
    }
  return found;
};

describe('prepared packs', () => {
  it('are frozen plain data: no function, nothing worked out later, nothing that can be changed', () => {
    const plain = [Object.prototype, Array.prototype, Map.prototype, Set.prototype, null];
    for (const value of reached(preparePacks(packs))) {
      expect(typeof value).not.toBe('function');
      if (typeof value !== 'object' || value === null) continue;
      expect(plain.includes(Object.getPrototypeOf(value)), String(value)).toBe(true);
      expect(Object.isFrozen(value)).toBe(true);
    }
  });

  it('stay the same whatever jobs are read and judged with them', () => {
    const prepared = preparePacks(packs);
    const before = structuredClone(prepared);
    const context = { prepared, shop, elsewhere: new Map<string, string>(), sameDefinition: () => true };
    let judged = 0;
    for (const text of texts) {
      // With the usual corners of its layout, and with fewer.
      for (const own of [text, text.replace('vehicle:\n', 'vehicle:\n  fitted: [LR, RR]\n')]) {
        const { job } = readJob(openJob(own), context);
        if (job === null) continue;
        judged += 1;
        const at = job.opened + 30 * 86_400_000;
        assess(job, prepared, at);
        standingOf(assessBriefly(job, prepared, at), 'hold');
      }
    }
    expect(judged).toBeGreaterThan(texts.length);
    expect(prepared).toStrictEqual(before);
  });

  it('give the same vehicle whether it was prepared ahead or is worked out when it is asked for', () => {
    const ahead = preparePacks(packs);
    const late = preparePacks(packs, []);
    expect(ahead.vehicles.map(({ layout }) => layout)).toEqual(layouts);
    expect(late.vehicles).toEqual([]);
    for (const vehicle of ahead.vehicles) {
      expect(preparedFor(ahead, vehicle)).toBe(vehicle);
      expect(preparedFor(late, vehicle)).toStrictEqual(vehicle);
    }
  });

  it('work out a vehicle with other corners by the same function', () => {
    const prepared = preparePacks(packs);
    const vehicle = { layout: 'four-corner-air', fitted: ['LR', 'RR'] } as const;
    expect(preparedFor(prepared, vehicle)).toStrictEqual(
      prepareVehicle(prepared.packs, prepared.channelById, vehicle),
    );
  });
});
