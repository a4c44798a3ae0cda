import { readdirSync, readFileSync } from 'node:fs';
import { Ajv } from 'ajv';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { type Corner, corners } from '../../src/core/corner.ts';

/** The written cases are judged as data here: fit, known ids and physics. What the program makes of them is tested elsewhere. */
type Typed = string | number | readonly Typed[] | { readonly [part: string]: Typed };

interface Snapshot {
  readonly id: string;
  readonly at: string;
  readonly readings?: Readonly<Record<string, Typed>>;
}

interface Job {
  readonly opened: string;
  readonly vehicle: { readonly layout: string };
  readonly snapshots: readonly Snapshot[];
  readonly log: readonly {
    readonly at: string;
    readonly did: string;
    readonly what?: string;
    readonly found?: string;
  }[];
}

interface Key {
  readonly cause: readonly string[];
  readonly alike: readonly string[];
  readonly firstTests: readonly string[];
  readonly neverFirst: readonly string[];
  readonly dangers: readonly string[];
  readonly results: Readonly<Record<string, string>>;
}

interface Scoped {
  readonly whole: readonly string[];
  readonly corner: readonly string[];
  readonly axle: readonly string[];
}

interface KnownIds {
  readonly components: Scoped;
  readonly suspects: Scoped;
  readonly tests: Readonly<Record<string, { readonly per: string; readonly outcomes: readonly string[] }>>;
  readonly steps: readonly string[];
  readonly holdPoints: readonly string[];
  readonly cautions: readonly string[];
}

const folder = new URL('.//', import.meta.url).pathname;
const text = (name: string): string => readFileSync(folder + name, 'utf8');
const known = JSON.parse(text('known-ids.json')) as KnownIds;
const fitsSchema = new Ajv().compile(JSON.parse(text('key-schema.json')));

const files = readdirSync(folder).filter((name) => /^\d\d+-.*\.yaml$/.test(name));
const jobFiles = files.filter((name) => !name.endsWith('.key.yaml'));
const cases = jobFiles.map((file) => ({
  name: file.replace('.yaml', ''),
  job: parse(text(file)) as Job,
  key: parse(text(file.replace('.yaml', '.key.yaml'))) as Key,
}));

const axles = ['front', 'rear'];
const placesOf: Readonly<Record<string, readonly string[]>> = {
  vehicle: [],
  corner: corners,
  axle: axles,
  'corner-or-supply': [...corners, 'supply'],
};

const expand = ({ whole, corner, axle }: Scoped): ReadonlySet<string> =>
  new Set([
    ...whole,
    ...corner.flatMap((id) => corners.map((at) => `${id}.${at}`)),
    ...axle.flatMap((id) => axles.map((at) => `${id}.${at}`)),
  ]);

const components = expand(known.components);
const suspects = expand(known.suspects);
const outcomes = new Map<string, readonly string[]>([
  ...Object.entries(known.tests).flatMap(([id, { per, outcomes: found }]) =>
    per === 'vehicle'
      ? [[id, found] as const]
      : (placesOf[per] ?? []).map((at) => [`${id}.${at}`, found] as const),
  ),
  ...[...components].map((id) => [`inspected ${id}`, ['fault-seen', 'nothing-seen']] as const),
]);

const isStep = (id: string): boolean =>
  known.steps.includes(id) || (id.startsWith('repair.') && components.has(id.slice('repair.'.length)));

/** Every number that a reading holds, in the unit typed; none where it could not be taken. */
const numbersOf = (typed: Typed | undefined): readonly number[] => {
  if (typeof typed === 'number') return [typed];
  if (typeof typed === 'string') {
    const value = Number.parseFloat(typed);
    return Number.isNaN(value) ? [] : [value];
  }
  if (Array.isArray(typed)) return typed.flatMap(numbersOf);
  if (typed && typeof typed === 'object') {
    return Object.entries(typed).flatMap(([part, value]) => (part === 'why' ? [] : numbersOf(value)));
  }
  return [];
};

const atCorner = (typed: Typed | undefined, corner: Corner): readonly number[] =>
  typed && typeof typed === 'object' && !Array.isArray(typed)
    ? numbersOf((typed as Readonly<Record<string, Typed>>)[corner])
    : [];

/** The four values of a channel, or null where one is missing. */
const fourOf = (typed: Typed | undefined): Readonly<Record<Corner, number>> | null => {
  const values = corners.map((corner) => [corner, atCorner(typed, corner)[0]] as const);
  return values.every(([, value]) => value !== undefined)
    ? (Object.fromEntries(values) as Record<Corner, number>)
    : null;
};

const warpOf = (height: Readonly<Record<Corner, number>>): number =>
  (height.LF - height.RF - height.LR + height.RR) / 4;

describe('the written cases', () => {
  it('come in pairs of a job file and a key', () => {
    const keys = files.filter((name) => name.endsWith('.key.yaml'));
    expect(keys).toEqual(jobFiles.map((name) => name.replace('.yaml', '.key.yaml')));
    expect(cases.length).toBeGreaterThanOrEqual(84);
  });

  it('make every suspect the cause at least twice', () => {
    const causes = cases.flatMap(({ key }) => key.cause.map((id) => id.split('.')[0]));
    // A damaged arm or a plug as such shows as its linkage or its wire.
    const kinds = [...new Set([...suspects].map((id) => id.split('.')[0]))].filter(
      (id) => id !== 'arm' && id !== 'sensor-plugs',
    );
    const rare = kinds.filter((kind) => causes.filter((id) => id === kind).length < 2);
    expect(rare).toEqual([]);
  });

  it('hold a dozen sound vehicles and six with two faults', () => {
    expect(cases.filter(({ key }) => key.cause.length === 0).length).toBeGreaterThanOrEqual(12);
    expect(cases.filter(({ key }) => key.cause.length > 1).length).toBeGreaterThanOrEqual(6);
  });
});

describe.each(cases)('$name', ({ job, key }) => {
  it('has a key that fits the schema', () => {
    expect(fitsSchema(key), JSON.stringify(fitsSchema.errors)).toBe(true);
  });

  it('names known ids only', () => {
    const isFirst = (id: string) => outcomes.has(id) || isStep(id) || id.startsWith('read ');
    const isNever = (id: string) =>
      suspects.has(id) ||
      components.has(id) ||
      outcomes.has(id) ||
      isStep(id) ||
      known.holdPoints.includes(id);
    expect({
      suspects: [...key.cause, ...key.alike].filter((id) => !suspects.has(id)),
      first: key.firstTests.filter((id) => !isFirst(id)),
      never: key.neverFirst.filter((id) => !isNever(id)),
      dangers: key.dangers.filter((id) => !known.cautions.includes(id)),
      results: Object.entries(key.results).filter(([id, found]) => !outcomes.get(id)?.includes(found)),
    }).toEqual({ suspects: [], first: [], never: [], dangers: [], results: [] });
  });

  it('knows what each recommended test finds, and contradicts itself nowhere', () => {
    const unanswered = key.firstTests.filter((id) => outcomes.has(id) && key.results[id] === undefined);
    const bothWays = key.neverFirst.filter((id) => key.firstTests.includes(id) || key.cause.includes(id));
    const logged = job.log.filter(
      ({ did, what, found }) => (did === 'tested' || did === 'inspected') && what !== undefined && found,
    );
    const contradicted = logged.filter(({ did, what, found }) => {
      const result = key.results[did === 'inspected' ? `inspected ${what}` : `${what}`];
      return result !== undefined && result !== found;
    });
    expect({ unanswered, bothWays, contradicted }).toEqual({
      unanswered: [],
      bothWays: [],
      contradicted: [],
    });
  });

  it('speaks of fitted corners only', () => {
    if (job.vehicle.layout !== 'rear-air-assist') return;
    const atFront = Object.keys(key.results).filter((id) => /\.(LF|RF|front)$/.test(id));
    expect(atFront).toEqual([]);
  });

  it('has its entries in the time of the visit', () => {
    const early = [...job.snapshots, ...job.log].filter(({ at }) => at < job.opened);
    expect(early).toEqual([]);
    const ids = job.snapshots.map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it('shows a rigid body on a flat floor', () => {
    for (const { id, readings } of job.snapshots) {
      const height = fourOf(readings?.height);
      if (!height) continue;
      // Wheel-centre heights and tyres add up to heights above the floor, which are those of one plane.
      const tyre = fourOf(readings?.tyre) ?? { LF: 0, RF: 0, LR: 0, RR: 0 };
      const above = Object.fromEntries(corners.map((corner) => [corner, height[corner] + tyre[corner]]));
      expect(Math.abs(warpOf(above as Record<Corner, number>)), id).toBeLessThan(2);
    }
  });

  it('gains no volts along a wire', () => {
    const instrumentIsOff = key.cause.some((id) =>
      ['control-module', 'meter', 'module-reading'].includes(id),
    );
    for (const { id, readings } of job.snapshots) {
      const battery = numbersOf(readings?.battery);
      if (battery.length === 0) continue;
      const source = Math.max(...battery) + 0.1;
      const downstream = ['pin-supply', 'compressor-supply', ...(instrumentIsOff ? [] : ['supply'])];
      for (const channel of downstream) {
        for (const volts of numbersOf(readings?.[channel])) {
          expect(volts, `${id}: ${channel}`).toBeLessThanOrEqual(source);
        }
      }
      const [pin] = numbersOf(readings?.['pin-supply']);
      const [ground] = numbersOf(readings?.['pin-ground']);
      const [feed] = numbersOf(readings?.['feed-drop']);
      if (pin === undefined || ground === undefined || feed === undefined) continue;
      expect(Math.abs(pin + ground + feed - Math.max(...battery)), `${id}: sum of the drops`).toBeLessThan(
        0.15,
      );
    }
  });

  it('keeps every signal between the rails', () => {
    for (const { id, readings } of job.snapshots) {
      for (const corner of corners) {
        // A value that cannot be is in the file on purpose where the key says to read it again.
        const highest = key.firstTests.includes(`read position.${corner}`) ? Number.POSITIVE_INFINITY : 5;
        for (const channel of ['position', 'plug-signal', 'pin-signal', 'unplugged-signal']) {
          for (const volts of atCorner(readings?.[channel], corner)) {
            expect(volts, `${id}: ${channel}.${corner}`).toBeGreaterThanOrEqual(0);
            expect(volts, `${id}: ${channel}.${corner}`).toBeLessThanOrEqual(highest);
          }
        }
      }
    }
  });

  it('loses at a plug no more reference than its ground is raised by', () => {
    // A lifted module ground carries its own reference with it.
    if (key.cause.includes('module-ground')) return;
    for (const { id, readings } of job.snapshots) {
      for (const corner of corners) {
        const [reference] = atCorner(readings?.reference, corner);
        const [raised] = atCorner(readings?.['sensor-ground-drop'], corner);
        if (reference === undefined || raised === undefined) continue;
        expect(reference + raised, `${id}: reference.${corner}`).toBeLessThanOrEqual(5.1);
        if (key.cause.some((cause) => cause.startsWith('sensor-ground'))) {
          expect(reference + raised, `${id}: reference.${corner}`).toBeGreaterThanOrEqual(4.9);
        }
      }
    }
  });
});
