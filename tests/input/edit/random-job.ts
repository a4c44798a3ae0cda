import { block, braces, brackets, lines, text, type Value } from '../../../src/input/edit/value.ts';

/** Plain values, as a reader with no idea of this program would have them. */
export type Plain = string | number | boolean | null | readonly Plain[] | PlainMap;
export interface PlainMap {
  readonly [key: string]: Plain;
}

/** Choices off a row of random numbers; once it is used up the first choice is taken, so that failures shrink. */
export interface Tape {
  readonly pick: (count: number) => number;
  readonly of: <T>(items: readonly T[]) => T;
  /** True in so many of a hundred cases. */
  readonly chance: (percent: number) => boolean;
}

export const tapeOf = (numbers: ArrayLike<number>): Tape => {
  let at = 0;
  const pick = (count: number): number => {
    const number = numbers[at] ?? 0;
    at += 1;
    return number % count;
  };
  return {
    pick,
    of: (items) => items[pick(items.length)] as (typeof items)[number],
    chance: (percent) => pick(100) >= 100 - percent,
  };
};

export const isMap = (value: Plain): value is PlainMap =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const texts = [
  'part numbers matched',
  'Lamp on: most mornings # sometimes',
  '- not a list',
  'it\'s "quoted" \\ twice',
  'true',
  '12',
  '0x1F',
  'ends with a colon:',
  '{braces}, [brackets]',
  '2.48 V',
  '~',
  '? what',
  'one\ntwo\n',
  'one\ntwo',
  'wide 🚐 ключ 表 e\u0301',
  ' blank before',
  'blank behind ',
  'tab\there',
  'first\n\n  further in\nlast\n',
  'kept below\n\n',
  '# no comment',
  '... --- ...',
  'a long line of words that some writers of files would rather fold at a blank or two of their choice',
];

const some = (tape: Tape, most: number, make: (index: number) => Plain): Plain[] =>
  Array.from({ length: tape.pick(most + 1) }, (_, index) => make(index));

/** The map with some of the parts, in an order of its own. */
const mapOf = (tape: Tape, needed: PlainMap, others: Readonly<Record<string, () => Plain>>): PlainMap => {
  const chosen = Object.entries(others).filter(() => tape.chance(60));
  const pairs = [...Object.entries(needed), ...chosen.map(([key, make]) => [key, make()] as const)];
  for (let end = tape.chance(30) ? pairs.length : 0; end > 1; end -= 1) {
    const from = tape.pick(end);
    [pairs[from], pairs[end - 1]] = [pairs[end - 1] as (typeof pairs)[0], pairs[from] as (typeof pairs)[0]];
  }
  return Object.fromEntries(pairs);
};

const volts = (tape: Tape): string => `${1 + tape.pick(3)}.${10 + tape.pick(90)} V`;

const reading = (tape: Tape): Plain =>
  tape.of<() => Plain>([
    () => volts(tape),
    () => [volts(tape), volts(tape)],
    () => ({ why: tape.of(texts) }),
    () => ({ low: '0.9 V', high: '2.6 V' }),
    () => ({ value: volts(tape), by: 'meter' }),
  ])();

const code = (tape: Tape): PlainMap =>
  mapOf(
    tape,
    { code: tape.of(['C1A21', 'C1A40-54', 'U0140']) },
    { status: () => tape.of(['stored', 'pending']), text: () => tape.of(texts) },
  );

const conditions = (tape: Tape): PlainMap =>
  mapOf(
    tape,
    {},
    {
      floor: () => 'level',
      load: () => 'empty',
      air: () => '8 °C',
      maintainer: () => tape.of(['on', 'off']),
    },
  );

const readings = (tape: Tape): PlainMap =>
  mapOf(
    tape,
    {},
    {
      supply: () => reading(tape),
      battery: () => reading(tape),
      position: () =>
        mapOf(
          tape,
          { LF: reading(tape) },
          { RF: () => reading(tape), LR: () => reading(tape), RR: () => reading(tape) },
        ),
    },
  );

const time = (tape: Tape): string => `2026-03-02T${10 + tape.pick(10)}:${10 + tape.pick(50)}`;

const snapshot = (tape: Tape, id: string): PlainMap =>
  mapOf(
    tape,
    { id, at: time(tape), state: tape.of(['key-on', 'rest', 'running']) },
    {
      conditions: () => conditions(tape),
      readings: () => readings(tape),
      lamp: () => tape.of(['on', 'off']),
      codes: () => (tape.chance(40) ? [] : [code(tape)]),
      note: () => tape.of(texts),
      'x-own': () => own(tape, 2),
    },
  );

const logEntry = (tape: Tape): PlainMap =>
  mapOf(
    tape,
    { at: time(tape), did: 'replaced', what: tape.of(['sensor.LR', 'sensor.RF']) },
    { by: () => 'technician', note: () => tape.of(texts) },
  );

/** What users keep below keys of their own: anything. */
const own = (tape: Tape, depth: number): Plain => {
  const kind = tape.pick(depth > 0 ? 7 : 5);
  if (kind === 0) return tape.of(texts);
  if (kind === 1) return tape.of([4, -1.5, 0]);
  if (kind === 2) return tape.of([true, false]);
  if (kind === 3) return null;
  if (kind === 4) return tape.of<Plain>([[], {}]);
  if (kind === 5) return some(tape, 3, () => own(tape, depth - 1));
  return mapOf(
    tape,
    {},
    {
      bay: () => own(tape, depth - 1),
      'a key: of words': () => own(tape, depth - 1),
      'ключ 🚐': () => own(tape, depth - 1),
    },
  );
};

/** A job in which nothing is wrong, against the bench pack. */
export const randomJob = (tape: Tape): PlainMap =>
  mapOf(
    tape,
    {
      worksheet: 1,
      job: `S${1 + tape.pick(24)}-0412`,
      title: tape.of(['Left rear sits low', 'Sits low: left rear', '12']),
      opened: '2026-03-02T08:15',
      zone: 'Europe/Dublin',
      status: 'open',
      packs: ['bench@1'],
      vehicle: mapOf(
        tape,
        { name: `Shuttle ${1 + tape.pick(24)}`, layout: 'four-corner-air' },
        {
          'sensor-sense': () => ({ LF: 'rising', RF: 'falling' }),
          fitted: () => ['LF', 'RF', 'LR', 'RR'],
          battery: () => 'agm',
        },
      ),
      instruments: { meter: { accuracy: '0.5 % + 0.02 V', shows: '0.01 V' } },
    },
    {
      complaint: () => tape.of(texts),
      distance: () => ({ in: '148200 km' }),
      snapshots: () => some(tape, 3, (index) => snapshot(tape, `s${index}`)),
      log: () => some(tape, 3, () => logEntry(tape)),
      costs: () => ({ currency: 'EUR', lines: [{ kind: 'part', what: 'sensor.LR', amount: 138.5 }] }),
      'x-own': () => own(tape, 3),
    },
  );

/** A plain value as one to be written, in lines or in brackets as it comes. */
export const asValue = (tape: Tape, plain: Plain): Value => {
  if (typeof plain === 'string') return text(plain);
  if (Array.isArray(plain))
    return tape.of([lines, brackets])(plain.map((item: Plain) => asValue(tape, item)));
  if (isMap(plain)) {
    const pairs = Object.entries(plain).map(([key, value]) => [key, asValue(tape, value)] as const);
    return tape.of([block, braces])(pairs);
  }
  return { kind: 'bare', text: String(plain) };
};

type Way = readonly (string | number)[];

/** An edit, and what comes of it worked out on plain values. */
export type Edit =
  | { readonly kind: 'append'; readonly to: Way; readonly items: readonly PlainMap[] }
  | { readonly kind: 'put'; readonly at: Way; readonly value: Plain };

const at = (job: Plain, way: Way): Plain | undefined =>
  way.reduce<Plain | undefined>((node, part) => (node as Record<string, Plain> | undefined)?.[part], job);

const snapshotsOf = (job: PlainMap): readonly Plain[] =>
  (job.snapshots as readonly Plain[] | undefined) ?? [];

/** What may be added to a snapshot of this job: only keys that are not there yet. */
const puts = (tape: Tape, job: PlainMap, number: number): Edit[] =>
  snapshotsOf(job).flatMap((one, index): Edit[] => {
    const here: Way = ['snapshots', index];
    const free = (way: Way, value: Plain): Edit[] =>
      at(one, way) === undefined ? [{ kind: 'put', at: [...here, ...way], value }] : [];
    return [
      ...free(['lamp'], 'on'),
      ...free(['note'], tape.of(texts)),
      ...free(['conditions'], { floor: 'level', air: '12 °C' }),
      ...free(['conditions', 'levelling'], 'disabled'),
      ...free(['conditions', 'air'], '12 °C'),
      ...free(['readings', 'supply'], reading(tape)),
      ...free(['readings', 'tank'], '96 psi'),
      ...free(['readings', 'position', 'LR'], reading(tape)),
      ...free(['readings', 'position', 'RF'], reading(tape)),
      { kind: 'append', to: [...here, 'codes'], items: [{ code: `C1B0${number}`, status: 'stored' }] },
    ];
  });

export const randomEdit = (tape: Tape, job: PlainMap, number: number): Edit => {
  const other = puts(tape, job, number);
  const kind = tape.pick(other.length > 0 ? 5 : 2);
  if (kind === 0) {
    const items = [
      snapshot(tape, `new-${number}`),
      ...(tape.chance(20) ? [snapshot(tape, `too-${number}`)] : []),
    ];
    return { kind: 'append', to: ['snapshots'], items };
  }
  if (kind === 1) {
    return {
      kind: 'append',
      to: ['log'],
      items: [logEntry(tape), ...(tape.chance(40) ? [logEntry(tape)] : [])],
    };
  }
  return tape.of(other);
};

/** The job as it must be after an edit. */
export const edited = (job: Plain | undefined, way: Way, make: (old: Plain | undefined) => Plain): Plain => {
  const [part, ...rest] = way;
  if (part === undefined) return make(job);
  if (typeof part === 'number') {
    return (job as readonly Plain[]).map((item, index) => (index === part ? edited(item, rest, make) : item));
  }
  const map = (job ?? {}) as PlainMap;
  return { ...map, [part]: edited(map[part], rest, make) };
};

export const intended = (job: PlainMap, edit: Edit): PlainMap =>
  (edit.kind === 'put'
    ? edited(job, edit.at, () => edit.value)
    : edited(job, edit.to, (old) => [
        ...((old as readonly Plain[] | undefined) ?? []),
        ...edit.items,
      ])) as PlainMap;
