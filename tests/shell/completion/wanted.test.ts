import { describe, expect, it } from 'vitest';
import type { Pack } from '../../../src/core/pack.ts';
import type { Names } from '../../../src/shell/completion/names.ts';
import type { CommandShape, OptionShape } from '../../../src/shell/completion/shape.ts';
import { wanted } from '../../../src/shell/completion/wanted.ts';
import { packOf } from '../../support/judge.ts';

const option = (flag: string, more: Partial<OptionShape> = {}): OptionShape => ({
  flags: [flag],
  about: `about ${flag}`,
  value: null,
  optional: false,
  choices: [],
  repeatable: false,
  ...more,
});

const command = (name: string, more: Partial<CommandShape> = {}): CommandShape => ({
  name,
  about: `about ${name}`,
  options: [option('--help')],
  arguments: [],
  commands: [],
  ...more,
});

const rules = option('--rules', { value: 'dir', repeatable: true });
const program = command('cornerwise', {
  commands: [
    command('check', {
      options: [
        option('--format', { value: 'format', choices: ['table', 'json', 'ndjson'] }),
        option('--as-of', { value: 'time' }),
        option('--all'),
        option('--out', { value: 'file' }),
        rules,
      ],
      arguments: [{ name: 'FILE', variadic: true, choices: [] }],
    }),
    command('packs', {
      commands: [command('show', { options: [rules] }), command('prove'), command('list')],
    }),
    command('schema', { arguments: [{ name: 'name', variadic: false, choices: ['job', 'pack'] }] }),
    command('new', {
      options: ['layout', 'battery', 'packs', 'complaint'].map((name) =>
        option(`--${name}`, { value: name }),
      ),
    }),
    command('add', { options: [option('--at', { value: 'time' }), rules] }),
    command('fill'),
    command('log', {
      options: [
        option('--found', { value: 'outcome', optional: true }),
        option('--result', { value: 'result' }),
      ],
    }),
    command('fix'),
    command('waive'),
    command('undo'),
    command('help'),
  ],
});

const pack = packOf(`checks: []
steps:
  - {id: learn, title: Teach the height, answered-by: [{did: calibrated}], minutes: 5, points: [learn]}
`);

/** With a test of an arm at each corner. */
const tried: Pack = {
  ...pack,
  tests: [
    {
      id: 'try-arm',
      per: 'corner',
      perCorner: true,
      title: 'Try the arm',
      minutes: 2,
      outcomes: [
        { id: 'loose', title: 'it gives' },
        { id: 'firm', title: 'it holds' },
      ],
      points: [],
      cautions: [],
      acts: [],
      how: [],
      group: null,
      setUp: null,
      brings: 0,
      notWhile: [],
      elapsed: 0,
      depends: null,
      after: [],
      wants: [],
      layouts: null,
    },
  ],
};

const checked = packOf(
  `checks:
  - {id: band, kind: range, title: Band, of: position, in: [key-on], basis: {kind: from-memory}, tiers: [{weight: look, between: [1 V, 4 V]}]}`,
);

const asked: string[] = [];
const names: Names = {
  packsOf: async (file, folders) => {
    asked.push([file, ...folders].join(' '));
    return [tried];
  },
  snapshotsOf: async (file, folders) => {
    asked.push([file, ...folders].join(' '));
    return ['running', 'as-found'];
  },
  packNames: async () => [
    { id: 'bench', versions: ['1.1.0', '1.0.0'] },
    { id: 'belt', versions: ['2.0.0'] },
  ],
};

/** What may follow a line, by its values; `:files` and `:folders` are for the shell. */
const following = async (line: string, own: Names = names): Promise<string[]> => {
  const found = await wanted(line.split(' '), program, own);
  return found.kind === 'words' ? found.candidates.map(({ value }) => value) : [`:${found.kind}`];
};

describe('commands and options', () => {
  it.each([
    [
      'cornerwise ',
      ['check', 'packs', 'schema', 'new', 'add', 'fill', 'log', 'fix', 'waive', 'undo', 'help'],
    ],
    ['cornerwise ch', ['check']],
    ['cornerwise x', []],
    ['cornerwise packs ', ['show', 'prove', 'list']],
    ['cornerwise packs nonsense ', []],
    [
      'cornerwise help ',
      ['check', 'packs', 'schema', 'new', 'add', 'fill', 'log', 'fix', 'waive', 'undo', 'help'],
    ],
    ['cornerwise help packs s', ['show']],
    ['cornerwise help packs show ', []],
    ['cornerwise -', ['--help']],
    ['cornerwise check --', ['--format', '--as-of', '--all', '--out', '--rules']],
    ['cornerwise check --all --format json --', ['--as-of', '--out', '--rules']],
    ['cornerwise check --rules a --r', ['--rules']],
    ['cornerwise check --format ', ['table', 'json', 'ndjson']],
    ['cornerwise check --format n', ['ndjson']],
    ['cornerwise check --format=n', ['--format=ndjson']],
    ['cornerwise check --rules ', [':folders']],
    ['cornerwise check --out ', [':files']],
    ['cornerwise check --out=', []],
    ['cornerwise check --as-of ', []],
    ['cornerwise check --nonsense=', []],
    ['cornerwise check ', [':files']],
    ['cornerwise check --all a.yaml b', [':files']],
    ['cornerwise check -- --', [':files']],
    ['cornerwise schema ', ['job', 'pack']],
    ['cornerwise schema job ', []],
    ['cornerwise', []],
  ])('%j', async (line, values) => {
    expect(await following(line)).toEqual(line === 'cornerwise' ? await following('cornerwise ') : values);
  });

  it('say what they are', async () => {
    const found = await wanted(['cornerwise', 'ch'], program, names);
    expect(found).toEqual({ kind: 'words', candidates: [{ value: 'check', about: 'about check' }] });
  });
});

describe('packs', () => {
  it.each([
    ['cornerwise packs show be', ['bench', 'belt']],
    ['cornerwise packs show bench@', ['bench@1.1.0', 'bench@1.0.0']],
    ['cornerwise packs show bench ', []],
    ['cornerwise packs prove bench ', ['belt']],
  ])('%j', async (line, values) => {
    expect(await following(line)).toEqual(values);
  });
});

describe('a line of readings', () => {
  it.each([
    ['cornerwise new ', [':files']],
    ['cornerwise fill ', [':files']],
    ['cornerwise undo ', [':files']],
    ['cornerwise add ', [':files']],
    ['cornerwise add s7.yaml ', ['rest', 'key-on', 'cranking', 'running', 'driving']],
    ['cornerwise add --at 10:30 s7.yaml k', ['key-on']],
    ['cornerwise add s7.yaml rest L', ['LF=', 'LR=']],
    ['cornerwise add s7.yaml rest LF=2.4 L', ['LR=']],
    ['cornerwise add s7.yaml rest position', []],
    ['cornerwise add s7.yaml rest spring.', ['spring.LF=', 'spring.RF=', 'spring.LR=', 'spring.RR=']],
    [
      'cornerwise add s7.yaml rest reference',
      ['reference=', ...['LF', 'RF', 'LR', 'RR'].map((one) => `reference.${one}=`)],
    ],
    ['cornerwise add s7.yaml rest su', ['supply=', 'surface-charge=']],
    ['cornerwise add s7.yaml rest la', ['lamp=']],
    [
      'cornerwise add s7.yaml rest lamp=',
      ['lamp=on', 'lamp=off', 'lamp=flashing', 'lamp=no-self-test', 'lamp=not-fitted'],
    ],
    ['cornerwise add s7.yaml rest floor=l', ['floor=level']],
    ['cornerwise add s7.yaml rest floor=level f', []],
    ['cornerwise add s7.yaml rest code=C1A21 code', ['code=']],
    ['cornerwise add s7.yaml rest air', ['air-system=', 'air=']],
    [
      'cornerwise add s7.yaml rest r',
      ['reference=', ...['LF', 'RF', 'LR', 'RR'].map((one) => `reference.${one}=`), 'rested='],
    ],
    ['cornerwise add s7.yaml rest b', ['battery=', 'battery-temperature=', 'barometer=']],
    ['cornerwise add s7.yaml rest al', ['altitude=']],
    ['cornerwise add s7.yaml rest supply=', []],
    ['cornerwise add s7.yaml rest constructor=', []],
  ])('%j', async (line, values) => {
    expect(await following(line)).toEqual(values);
  });

  it('says what a channel is, at which corner and in which unit', async () => {
    const found = await wanted('cornerwise add s7.yaml rest LF'.split(' '), program, names);
    expect(found).toMatchObject({ candidates: [{ value: 'LF=', about: 'position signal LF, V' }] });
  });

  it('reads the job that the line names, with the rule folders that it names', async () => {
    asked.length = 0;
    await following('cornerwise add --rules mine --at 10:30 s7.yaml rest --rules=ours L');
    expect(asked).toEqual(['s7.yaml mine ours']);
  });

  it('reads no job where nothing of it is wanted', async () => {
    asked.length = 0;
    await following('cornerwise add s7.yaml ');
    await following('cornerwise log s7.yaml ');
    expect(asked).toEqual([]);
  });
});

describe('a line that puts right or accepts', () => {
  it.each([
    ['cornerwise fix ', [':files']],
    ['cornerwise fix s7.yaml ', ['running', 'as-found']],
    ['cornerwise fix s7.yaml a', ['as-found']],
    ['cornerwise fix s7.yaml as-found L', ['LF=', 'LR=']],
    ['cornerwise fix s7.yaml as-found LF=2.4 L', ['LR=']],
    ['cornerwise waive ', [':files']],
    ['cornerwise waive s7.yaml b', ['bench/band']],
    ['cornerwise waive s7.yaml bench/band ', []],
  ])('%s', async (line, values) => {
    expect(await following(line, { ...names, packsOf: async () => [checked] })).toEqual(values);
  });
});

describe('a line of the log', () => {
  it.each([
    ['cornerwise log ', [':files']],
    ['cornerwise log s7.yaml re', ['repaired', 'replaced', 'received', 'released']],
    ['cornerwise log s7.yaml replaced s', ['sensor.LF', 'sensor.RF', 'sensor.LR', 'sensor.RR']],
    ['cornerwise log s7.yaml replaced sensor.LF sensor.L', ['sensor.LR']],
    ['cornerwise log s7.yaml completed l', ['learn']],
    ['cornerwise log s7.yaml replaced c', ['control-module', 'compressor', 'codes', 'cost']],
    ['cornerwise log s7.yaml calibrated ri', ['ride-height']],
    ['cornerwise log s7.yaml drove ro', ['road-test']],
    ['cornerwise log s7.yaml completed readings/r', ['readings/rest', 'readings/running']],
    ['cornerwise log s7.yaml noted v', ['vehicle']],
  ])('%j', async (line, values) => {
    expect(await following(line)).toEqual(values);
  });

  it('says what a component is, also at a corner', async () => {
    const found = await wanted('cornerwise log s7.yaml replaced sensor.LF'.split(' '), program, names);
    expect(found).toMatchObject({ candidates: [{ value: 'sensor.LF', about: 'position sensor' }] });
  });
});

describe('values of options that a list elsewhere holds', () => {
  it.each([
    ['cornerwise new s7.yaml --layout rear', ['rear-air-assist']],
    ['cornerwise new s7.yaml --layout=rear', ['--layout=rear-air-assist']],
    ['cornerwise new s7.yaml --battery ', ['flooded', 'agm', 'efb', 'gel', 'lithium']],
    ['cornerwise new --packs be', ['bench@1', 'belt@2']],
    ['cornerwise new --complaint ', []],
    ['cornerwise log s7.yaml calibrated ride-height --result ', ['passed', 'failed']],
    ['cornerwise log s7.yaml tested try-arm.LR --found ', ['loose', 'firm']],
    ['cornerwise log s7.yaml tested try-arm.LR --found=l', ['--found=loose']],
    ['cornerwise log s7.yaml tested sensor.LR --found ', []],
    ['cornerwise log s7.yaml tested try-arm.LR --found --r', ['--result']],
    [
      'cornerwise log s7.yaml tested --found --result passed try',
      ['LF', 'RF', 'LR', 'RR'].map((one) => `try-arm.${one}`),
    ],
    ['cornerwise log s7.yaml --found loose t', ['tested']],
  ])('%j', async (line, values) => {
    expect(await following(line)).toEqual(values);
  });
});

describe('names from files of others', () => {
  it.each(['be\u001b[31mll', 'be\nll', 'be\tll', 'be\u202ell', 'be\u0000ll'])(
    '%j is left out',
    async (id) => {
      const own: Names = {
        ...names,
        packNames: async () => [
          { id, versions: [] },
          { id: 'belt', versions: [] },
        ],
      };
      expect(await following('cornerwise packs show be', own)).toEqual(['belt']);
    },
  );

  it('have controls in their titles shown as what they are', async () => {
    const own: Names = {
      ...names,
      packsOf: async () => [
        { ...pack, channels: pack.channels.map((one) => ({ ...one, title: 'a\tb\u001b[31m' })) },
      ],
    };
    const found = await wanted('cornerwise add s7.yaml rest tank'.split(' '), program, own);
    expect(found).toMatchObject({ candidates: [{ about: 'a b<1B>[31m, psi' }] });
  });
});
