import { describe, expect, it } from 'vitest';
import { judge, keyOn } from '../../support/judge.ts';
import { aloneOf, benchPack, probabilityOf, rank, signals } from './bench-pack.ts';

const lowLeftRear = keyOn(`{${signals({ LR: '0.50 V' })}, supply: 12.50 V}`);
const jobs = [
  ['one corner off', lowLeftRear],
  ['the supply low', keyOn(`{${signals()}, supply: 11.00 V, reference: 5.00 V}`)],
  ['two things off', keyOn(`{${signals({ LR: '0.50 V' })}, supply: 11.00 V, tank: 60 psi}`)],
  ['a doubtful reading beside it', keyOn(`{${signals({ LR: '0.50 V' })}, supply: 11.52 V}`)],
] as const;

describe.each(jobs)('with %s', (_, job) => {
  const ranking = rank(job);

  it('probabilities of all that may be wrong sum to 1, and those of suspects fall', () => {
    const all = ranking.suspects.map(({ probability }) => probability);
    expect(ranking.hypotheses.reduce((sum, one) => sum + one.probability, 0)).toBeCloseTo(1, 12);
    expect(all).toEqual([...all].sort((a, b) => b - a));
  });

  it('a suspect is as probable as it is alone and in pairs together', () => {
    for (const { id, probability } of ranking.suspects) {
      const named = ranking.hypotheses
        .filter((one) => one.id.split(' + ').includes(id))
        .reduce((sum, one) => sum + one.probability, 0);
      expect(probability).toBeCloseTo(named, 12);
    }
  });

  it('each ledger adds up to the ratio of the two posteriors, each alone at fault', () => {
    for (const { id, rival, ledger } of ranking.suspects) {
      const total = ledger.reduce((sum, { points }) => sum + points, 0);
      expect(total).toBeCloseTo(10 * Math.log10(aloneOf(ranking, id) / aloneOf(ranking, rival)), 9);
    }
  });

  it('each line of a ledger is its own ratio, and the leader has the next as its rival', () => {
    const [leader, next] = ranking.suspects;
    expect(leader?.rival).toBe(next?.id);
    expect(next?.rival).toBe(leader?.id);
    for (const { points, likelihood, rival } of ranking.suspects.flatMap(({ ledger }) => ledger)) {
      expect(points).toBeCloseTo(10 * Math.log10(likelihood / rival), 12);
    }
  });
});

describe('suspects', () => {
  it('stand at each fitted corner, and something else beside them', () => {
    const ids = rank(lowLeftRear).suspects.map(({ id }) => id);
    expect(ids).toContain('sensor.LF');
    expect(ids).toContain('something-else');
    expect(ids).toHaveLength(2 * 4 + 4 + 1);
    const bus = rank(
      `vehicle: {name: Shuttle 22, layout: rear-air-assist}\n${keyOn('{position: {LR: 0.50 V, RR: 2.50 V}}')}`,
    );
    const onBus = bus.suspects.map(({ id }) => id);
    expect(onBus).not.toContain('sensor.LF');
    expect(onBus).not.toContain('tank');
    expect(onBus).toHaveLength(2 * 2 + 3 + 1);
  });

  it('are named with their corner', () => {
    expect(rank(lowLeftRear).suspects.find(({ id }) => id === 'sensor.LR')?.title).toBe(
      'position sensor, LR',
    );
  });

  it('whose prior is double are twice as likely on the same evidence', () => {
    const ranking = rank(lowLeftRear);
    expect(probabilityOf(ranking, 'sensor.LR') / probabilityOf(ranking, 'wire.LR')).toBeCloseTo(2, 9);
  });

  it('have the findings for and against them, held against all the others', () => {
    const [leader] = rank(keyOn(`{${signals({ LR: '0.50 V' })}, supply: 11.00 V}`)).suspects;
    expect(leader).toMatchObject({
      id: 'sensor.LR',
      for: ['bench/signal:LR@as-found'],
      against: ['bench/supply:supply@as-found'],
    });
  });

  it('are named what speaks for them, though their best rival explains it as well', () => {
    const [leader] = rank(lowLeftRear).suspects;
    expect(leader?.rival).toBe('wire.LR');
    expect(leader?.ledger.find(({ group }) => group === 'corners')?.points).toBe(0);
    expect(leader?.for).toContain('bench/signal:LR@as-found');
  });
});

describe('what no one suspect explains', () => {
  it('is named: the smallest set, of what is out', () => {
    const ranking = rank(keyOn(`{${signals({ LR: '0.50 V' })}, reference: 5.00 V, tank: 60 psi}`));
    expect(ranking.conflict).toEqual(['bench/signal:LR@as-found', 'bench/tank:tank@as-found']);
  });

  it('is nothing where one explains all', () => {
    expect(rank(lowLeftRear).conflict).toEqual([]);
    // Several corners and a low supply: the module.
    const several = signals({ LF: '0.50 V', RF: '0.50 V', LR: '0.50 V' });
    expect(rank(keyOn(`{${several}, supply: 11.00 V}`)).conflict).toEqual([]);
  });

  it('takes two: one that nothing explains well is no conflict by itself', () => {
    // A supply that is too high is not a sign of anything in this pack.
    const ranking = rank(keyOn(`{${signals()}, supply: 15.50 V}`));
    expect(ranking.conflict).toEqual([]);
  });
});

describe('tests on record', () => {
  const tested = (log: string): string => `${lowLeftRear}log: [${log}]\n`;
  const stuck = '{at: 2026-03-02T09:00, did: tested, what: try-arm.LR, found: stuck}';

  it('count for the suspect of their corner', () => {
    const before = rank(lowLeftRear);
    const after = rank(tested(stuck));
    expect(probabilityOf(after, 'sensor.LR')).toBeGreaterThan(probabilityOf(before, 'sensor.LR'));
    const line = after.suspects.find(({ id }) => id === 'sensor.LR')?.ledger.at(-1);
    // Usually against rarely, 0.85 and 0.1 of 0.95, with slips.
    expect(line).toMatchObject({ group: 'test try-arm.LR', from: ['test try-arm.LR'], observed: 'stuck' });
    expect(line?.likelihood).toBeCloseTo((0.98 * 0.85) / 0.95 + 0.01, 12);
    expect(line?.rival).toBeCloseTo((0.98 * 0.1) / 0.95 + 0.01, 12);
    expect(after.suspects[0]?.for).toContain('test try-arm.LR');
  });

  it('at one corner are about no other', () => {
    const after = rank(tested('{at: 2026-03-02T09:00, did: tested, what: try-arm.RF, found: stuck}'));
    const before = rank(lowLeftRear);
    const ratio = (of: typeof before): number => aloneOf(of, 'sensor.LR') / aloneOf(of, 'sensor.LF');
    expect(ratio(after)).toBeCloseTo(ratio(before), 9);
    expect(probabilityOf(after, 'sensor.RF')).toBeGreaterThan(probabilityOf(before, 'sensor.RF'));
  });

  it('count by the newest entry alone', () => {
    const smooth = '{at: 2026-03-02T09:30, did: tested, what: try-arm.LR, found: smooth}';
    expect(rank(tested(`${stuck}, ${smooth}`))).toEqual(rank(tested(smooth)));
  });

  it('of one minute count by the order in the file', () => {
    const smooth = '{at: 2026-03-02T09:00, did: tested, what: try-arm.LR, found: smooth}';
    expect(rank(tested(`${stuck}, ${smooth}`))).toEqual(rank(tested(smooth)));
  });

  it('that failed, or found nothing, are none', () => {
    const failed = '{at: 2026-03-02T09:00, did: tested, what: try-arm.LR, found: stuck, result: failed}';
    const silent = '{at: 2026-03-02T09:00, did: tested, what: try-arm.LR}';
    expect(rank(tested(failed))).toEqual(rank(lowLeftRear));
    expect(rank(tested(silent))).toEqual(rank(lowLeftRear));
  });

  const later = (log: string): string =>
    `${keyOn('{supply: 12.50 V}')}  - {id: later, at: 2026-03-02T12:00, state: key-on, readings: {${signals({ LR: '0.50 V' })}, supply: 12.50 V}}\nlog: [${log}]\n`;
  const compressor = '{at: 2026-03-02T10:00, did: replaced, what: compressor}';

  it('are over once work came after them, unless the test says what it depends on', () => {
    const pins = '{at: 2026-03-02T09:00, did: tested, what: pins, found: low}';
    expect(rank(later(`${pins}, ${compressor}`))).toEqual(rank(later(compressor)));
    expect(rank(later(`${stuck}, ${compressor}`))).not.toEqual(rank(later(compressor)));
    const own = '{at: 2026-03-02T10:00, did: replaced, what: sensor.LR}';
    expect(rank(later(`${stuck}, ${own}`))).toEqual(rank(later(own)));
    const another = '{at: 2026-03-02T10:00, did: replaced, what: sensor.RF}';
    expect(rank(later(`${stuck}, ${another}`))).not.toEqual(rank(later(another)));
  });

  it('count for nothing where the readings have answered', () => {
    const wrong = 'log: [{at: 2026-03-02T09:00, did: tested, what: reference-at-plug, found: wrong}]\n';
    const read = keyOn(`{${signals({ LR: '0.50 V' })}, reference: 5.00 V}`);
    const groups = (job: string) => rank(job).suspects[0]?.ledger.map(({ group }) => group);
    expect(groups(`${read}${wrong}`)).toEqual(['prior', 'corners', 'reference']);
    expect(groups(`${lowLeftRear}${wrong}`)).toEqual([
      'prior',
      'corners',
      'supply',
      'test reference-at-plug',
    ]);
  });
});

describe('a code and a test of one group', () => {
  const coded = benchPack.replace(
    'sources: [{finding: bench/reference}]',
    'sources: [{finding: bench/reference}, {code-means: [circuit-short]}]',
  );
  const job = (log: string): string =>
    `${keyOn(`{${signals()}}`, '    codes: [{code: C1A50, status: stored, means: circuit-short}]\n')}${log}`;
  const groups = (log: string) => rank(job(log), coded).suspects[0]?.ledger.map(({ group }) => group);

  it('are one piece of evidence, and the test counts', () => {
    const tested = 'log: [{at: 2026-03-02T09:00, did: tested, what: reference-at-plug, found: right}]\n';
    expect(groups('')).toEqual(['prior', 'corners', 'reference']);
    expect(groups(tested)).toEqual(['prior', 'corners', 'test reference-at-plug']);
  });

  it('leave the test to be done', () => {
    expect(rank(job(''), coded).nextTests.map(({ id }) => id)).toContain('reference-at-plug');
  });
});

describe('a worksheet', () => {
  it('bears its ranking, as it stood', () => {
    const sheet = judge(benchPack, lowLeftRear, '2026-03-02T08:30');
    expect(sheet.ranking).toBeNull();
    expect(judge(benchPack, lowLeftRear).ranking?.suspects[0]?.id).toBe('sensor.LR');
  });
});
