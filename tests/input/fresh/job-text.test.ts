import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { preparePacks } from '../../../src/core/prepare/prepared-packs.ts';
import { fields } from '../../../src/input/fresh/fields.ts';
import { type FreshJob, freshJobText } from '../../../src/input/fresh/job-text.ts';
import { openJob, readJob } from '../../../src/input/job/read-job.ts';
import { titleOf } from '../../../src/input/job/title-of.ts';
import { get, textOf } from '../../../src/input/yaml/tree.ts';
import { typingPack } from '../../support/typing.ts';

const context = { components: null };

const plain: FreshJob = {
  job: 's4',
  title: 'Sits low',
  opened: '2026-03-02T18:00',
  zone: 'Europe/Dublin',
  packs: ['bench@1'],
  vehicle: 'Shuttle 4',
  layout: 'four-corner-air',
  system: null,
  battery: null,
  charging: null,
  sensorSignal: null,
  sensorSense: null,
  symptoms: null,
  recentWork: null,
  complaint: null,
  distance: null,
  schema: './job.schema.json',
  shopPacks: [],
};

const read = (text: string) => {
  const file = openJob(text);
  const around = {
    prepared: preparePacks([typingPack]),
    shop: null,
    elsewhere: new Map<string, string>(),
    sameDefinition: () => true,
  };
  return { ...readJob(file, around), root: file.root ?? undefined };
};

describe('a fresh job file', () => {
  it('begins with the schema for editors, and has comments for what is not known', () => {
    const text = freshJobText(plain);
    expect(text.split('\n')[0]).toBe('# yaml-language-server: $schema=./job.schema.json');
    for (const word of ['system', 'battery', 'charging', 'sensor-signal', 'sensor-sense', 'service-data']) {
      expect(text).toMatch(new RegExp(`^ {2}# .*\\b${word}:`, 'mu'));
    }
    for (const word of ['complaint', 'distance', 'instruments']) {
      expect(text).toMatch(new RegExp(`^# ${word}:`, 'mu'));
    }
    expect(read(text).problems).toEqual([]);
  });

  it('leaves the packs to the shop file where that names them, and says which they are', () => {
    const text = freshJobText({ ...plain, packs: null, shopPacks: ['bench@1', 'handover@1'] });
    expect(text).toContain('# packs: [bench@1, handover@1]   # by the shop file; name others here');
    expect(get(read(text).root, 'packs')).toBeUndefined();
  });

  it('says all that is known', () => {
    const { job, problems, root } = read(
      freshJobText({
        ...plain,
        system: '24 V',
        battery: 'agm',
        charging: 'managed',
        sensorSignal: 'pwm',
        sensorSense: 'left-rising',
        symptoms: 'LR low after-standing',
        recentWork: 'sensor.RR, front',
        complaint: 'Leans: "left", #2',
        distance: '148200 km',
      }),
    );
    expect(problems).toEqual([]);
    expect(job?.vehicle).toMatchObject({
      name: 'Shuttle 4',
      layout: 'four-corner-air',
      system: '24 V',
      battery: 'agm',
      charging: 'managed',
      sensorSignal: 'pwm',
      sensorSense: { LF: 'rising', RF: 'falling', LR: 'rising', RR: 'falling' },
    });
    expect(job?.symptoms).toMatchObject([{ where: 'LR', sits: 'low', when: 'after-standing', rides: null }]);
    expect(job?.recentWork).toEqual(['sensor.RR', 'front']);
    expect(textOf(get(root, 'complaint'))).toBe('Leans: "left", #2');
    expect(textOf(get(get(root, 'distance'), 'in'))).toBe('148200 km');
  });

  it('holds its comments only as comments: each may be taken in by an editor', () => {
    const commented = freshJobText(plain)
      .split('\n')
      .filter((line) => /^ *# {1,3}(?:- |[a-z-]+: [{[]|[a-z-]+:$|sensor-gain)/u.test(line));
    expect(commented.length).toBeGreaterThanOrEqual(6);
    const text = freshJobText(plain)
      .split('\n')
      .map((line) => (commented.includes(line) ? line.replace('# ', '') : line))
      .join('\n');
    expect(read(text).problems.filter(({ code }) => code !== 'unknown-name')).toEqual([]);
  });

  it('reads back whatever words were typed', () => {
    const words = fc.oneof(
      fc.string({ unit: 'grapheme', minLength: 1, maxLength: 60 }),
      fc.constantFrom(
        'null',
        'true',
        '012',
        '1e3',
        '- dash',
        'a: b',
        'a #b',
        '"x"',
        "'x'",
        '{x}',
        '[x]',
        '&a',
        '*a',
        '!t',
        '%x',
        '@x',
        '`x',
        '|',
        '>',
        '~',
        'yes',
        '2026-03-02',
      ),
    );
    const readVehicle = fields.find(({ name }) => name === 'vehicle')?.read;
    const readComplaint = fields.find(({ name }) => name === 'complaint')?.read;
    fc.assert(
      fc.property(words, words, (one, other) => {
        const vehicle = readVehicle?.(one, context);
        const complaint = readComplaint?.(other, context);
        if (!vehicle?.ok || !complaint?.ok) return;
        const text = freshJobText({
          ...plain,
          vehicle: vehicle.value,
          complaint: complaint.value,
          title: titleOf(complaint.value),
        });
        const { job, problems, root } = read(text);
        expect(problems).toEqual([]);
        expect(job?.vehicle.name).toBe(vehicle.value);
        expect(textOf(get(root, 'complaint'))).toBe(complaint.value);
      }),
      { numRuns: 300 },
    );
  });
});
