import { describe, expect, it } from 'vitest';
import type { Equipment } from '../../../src/core/job.ts';
import type { Reason, WorksheetHoldPoint } from '../../../src/core/worksheet-parts.ts';
import { evening, judge, keyOn, shopWith } from '../../support/judge.ts';
import { benchPack, signals } from '../suspects/bench-pack.ts';

const pack = `${benchPack}
steps:
  - {id: learn, title: Ride-height learn, needs: height-learn, when: {did: replaced, what: sensor}, minutes: 15, answered-by: [{did: calibrated, what: ride-height}]}
hold-points:
  - id: order-part
    title: Order of the part
    when: {part: in-question}
    clear-when: {all: [{part: blamed}, {part: advised}, {part: equipped}]}
`;

const rated = 'costs: {labour-rate: 60 / h}\n';
const lowLeftRear = keyOn(`{${signals({ LR: '0.50 V' })}, supply: 12.50 V}`);
/** The arm was tried, and the two parts that an eye might have seen were looked at. */
const stuck = [
  '{at: 2026-03-02T09:00, did: tested, what: try-arm.LR, found: stuck}',
  ...['sensor.LR', 'wire.LR'].map(
    (what) => `{at: 2026-03-02T09:05, did: inspected, what: ${what}, found: nothing-seen}`,
  ),
].join(', ');
const tool = (...does: string[]): Equipment => ({ name: 'bench set', does, access: null }) as Equipment;

const pointOf = (job: string, equipment: readonly Equipment[] | null = null): WorksheetHoldPoint | null =>
  judge(pack, job, evening, shopWith(equipment)).holdPoints.find(({ id }) => id === 'order-part') ?? null;

const reasonOf = <K extends Reason['kind']>(
  job: string,
  kind: K,
  equipment: readonly Equipment[] | null = null,
) => pointOf(job, equipment)?.reasons.find((one): one is Extract<Reason, { kind: K }> => one.kind === kind);

describe('the order of a part', () => {
  it('is clear where the part is blamed, confirmed and advised', () => {
    expect(pointOf(`${lowLeftRear}log: [${stuck}]\n${rated}`)).toMatchObject({ clear: true, reasons: [] });
  });

  it('waits for what must be confirmed', () => {
    const reason = reasonOf(lowLeftRear + rated, 'part-not-advised');
    const unmet = reason?.conditions.map(({ id, lacks }) => [id, lacks]);
    expect(unmet).toEqual([['confirmed', ['try-arm.LR']]]);
  });

  it('waits for a test that pays once all the rest is there', () => {
    const readings = keyOn(`{${signals({ LR: '0.50 V' })}, supply: 12.50 V}`);
    const unconfirmed = pack
      .replace('    confirm: [{test: try-arm, found: stuck}]\n', '')
      .replace('title: wire of the sensor\n    prior: 2\n', 'title: wire of the sensor\n    prior: 0.8\n');
    const [point] = judge(unconfirmed, readings + rated).holdPoints;
    const [reason] = point?.reasons ?? [];
    expect(point?.clear).toBe(false);
    expect(reason?.kind === 'part-not-advised' && reason.conditions.map(({ id }) => id)).toEqual([
      'no-test-pays',
    ]);
  });

  it('cannot be weighed without a labour rate, and says so', () => {
    expect(reasonOf(lowLeftRear, 'part-not-weighed')).toBeDefined();
  });

  it('is not in question where nothing is out, or where something else leads', () => {
    expect(pointOf(keyOn(`{${signals({})}, supply: 12.50 V}`) + rated)).toBeNull();
    expect(
      pointOf(
        `${keyOn(`{${signals({})}}`)}${rated}log: [{at: 2026-03-02T09:00, did: ordered, what: sensor.LR}]\n`,
      ),
    ).toBeNull();
  });

  it('is clear without advice where a test found what nothing else shows', () => {
    expect(pointOf(`${lowLeftRear}log: [${stuck}]\n`)).toMatchObject({ clear: true });
  });

  it('is asked for though nothing is out where a pack asks for whatever was ordered', () => {
    const strict = pack.replace(
      'when: {part: in-question}',
      'when: {any: [{part: in-question}, {part: ordered}]}',
    );
    const sound = `${keyOn(`{${signals({})}, supply: 12.50 V}`)}${rated}`;
    const ordered = (what: string) => `log: [{at: 2026-03-02T09:00, did: ordered, what: ${what}}]\n`;
    const points = (log: string) => judge(strict, sound + log).holdPoints;
    expect(points('')).toEqual([]);
    expect(points(ordered('control-module'))).toMatchObject([
      { clear: false, holds: true, reasons: [{ kind: 'part-not-blamed', title: 'control module' }] },
    ]);
    expect(points(ordered('sensor.LR'))).toMatchObject([{ clear: false, holds: false }]);
  });

  it('is not in question of what is mended without a part, unless it was ordered', () => {
    const mended = pack.replace(
      '    title: position sensor\n',
      '    title: position sensor\n    part: false\n',
    );
    const points = (log: string) => judge(mended, `${lowLeftRear}${rated}log: [${log}]\n`).holdPoints;
    expect(points('')).toEqual([]);
    expect(points('{at: 2026-03-02T09:00, did: ordered, what: sensor.LR}')).toHaveLength(1);
  });

  it('looks at what was ordered before what leads, until it is declined or fitted', () => {
    const ordered = '{at: 2026-03-02T08:55, did: ordered, what: control-module}';
    const withLog = (...entries: string[]): string => `${lowLeftRear}${rated}log: [${entries.join(', ')}]\n`;
    expect(reasonOf(withLog(ordered), 'part-not-leading')).toMatchObject({
      title: 'control module',
      leader: 'position sensor, LR',
    });
    const declined = '{at: 2026-03-02T08:58, did: declined, what: control-module}';
    expect(pointOf(withLog(ordered, declined, stuck))).toMatchObject({ clear: true });
  });

  it('is not blamed by what is only too close to tell', () => {
    const close = keyOn(`{${signals({ LR: '0.99 V' })}, supply: 9 V}`);
    const reason = reasonOf(
      `${close}${rated}log: [{at: 2026-03-02T08:55, did: ordered, what: sensor.LR}]\n`,
      'part-not-blamed',
    );
    expect(reason).toEqual({
      kind: 'part-not-blamed',
      title: 'position sensor, LR',
      tooClose: ['Signal, LR'],
    });
  });

  it('wants equipment for all that would follow, where the shop says what it has', () => {
    const job = `${lowLeftRear}log: [${stuck}]\n${rated}`;
    expect(pointOf(job, [tool('height-learn')])).toMatchObject({ clear: true });
    expect(reasonOf(job, 'part-unequipped', [tool('read-codes')])).toEqual({
      kind: 'part-unequipped',
      title: 'position sensor, LR',
      step: 'Ride-height learn',
      needs: 'height-learn',
    });
  });
});
