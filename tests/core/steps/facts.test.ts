import { describe, expect, it } from 'vitest';
import { type Equipment, type ShopTerms, usualTerms } from '../../../src/core/job.ts';
import { evening, holdPointOf, judge, keyOn, shopWith, stepOf } from '../../support/judge.ts';

const checks = `checks:
  - {id: rails, kind: range, title: Rails, of: position, in: [key-on], basis: {kind: from-memory}, tiers: [{weight: hold, between: [0.25 V, 4.75 V]}]}
  - {id: supply, kind: range, title: Supply, of: supply, in: [key-on], basis: {kind: from-memory}, tiers: [{weight: look, at-least: 11.8 V}]}
  - {id: codes, kind: stored-codes, title: Codes, basis: {kind: from-memory}, weights: {stored: hold}}
steps:
  - {id: program, title: Program, minutes: 30, needs: program}
  - {id: learn, title: Learn, minutes: 60, needs: height-learn}`;

/** The one hold point of a pack whose condition is this. */
const point = (condition: string, job: string, shop: Equipment[] | null = null, asOf = evening) =>
  holdPointOf(
    judge(
      `${checks}\nhold-points: [{id: point, title: Point, clear-when: ${condition}}]`,
      job,
      asOf,
      shopWith(shop),
    ),
    'point',
  );
const clear = (condition: string, job: string, shop: Equipment[] | null = null, asOf = evening): boolean =>
  point(condition, job, shop, asOf).clear;
const kinds = (condition: string, job: string): string[] =>
  point(condition, job).reasons.map(({ kind }) => kind);

const log = (...entries: string[]): string =>
  `log:\n${entries.map((entry) => `  - {at: 2026-03-02T${entry.replace(' ', ', ')}}`).join('\n')}`;

describe('all, any, not', () => {
  const yes = '{layout: [four-corner-air]}';
  const no = '{layout: [rear-air-assist]}';

  it.each([
    [`{all: [${yes}, ${yes}]}`, true],
    [`{all: [${yes}, ${no}]}`, false],
    ['{all: []}', true],
    [`{any: [${no}, ${yes}]}`, true],
    [`{any: [${no}, ${no}]}`, false],
    ['{any: []}', false],
    [`{not: ${no}}`, true],
    [`{not: ${yes}}`, false],
    [`{not: {any: [${no}, {all: [${yes}, ${no}]}]}}`, true],
  ])('%s: %s', (condition, expected) => {
    expect(clear(condition, '')).toBe(expected);
  });

  it('a clear hold point gives no reasons; a closed one those of its failing parts only', () => {
    expect(point(yes, '').reasons).toEqual([]);
    expect(kinds(`{all: [${yes}, {step: program}, {cost: authorised}]}`, '')).toEqual([
      'step-open',
      'cost-not-authorised',
    ]);
  });
});

describe('did', () => {
  const job = log(
    '09:00 did: replaced, what: sensor.LR',
    '10:00 did: programmed, what: control-module, result: failed',
  );

  it.each([
    ['{did: replaced, what: sensor}', true],
    ['{did: replaced, what: sensor.LR}', true],
    ['{did: replaced, what: sensor.RR}', false],
    ['{did: replaced}', true],
    ['{did: [repaired, replaced], what: [compressor, sensor]}', true],
    ['{did: work, what: sensor}', true],
    ['{did: work, what: compressor}', false],
    ['{did: tested}', false],
    // A failed entry answers nothing.
    ['{did: programmed, what: control-module}', false],
  ])('%s: %s', (condition, expected) => {
    expect(clear(condition, job)).toBe(expected);
  });
});

describe('finding', () => {
  const low = keyOn('{position: {LF: 0.10 V, RF: 2.50 V}}');

  it.each([
    ['{finding: bench/rails}', true],
    ['{finding: bench/rails, subject: LF}', true],
    ['{finding: bench/rails, subject: RF}', false],
    ['{finding: bench/rails, verdict: within, subject: RF}', true],
    ['{finding: bench/rails, verdict: [within, too-close], subject: LF}', false],
    ['{finding: bench/rails, verdict: not-taken, subject: LR}', true],
    ['{finding: bench/supply, verdict: not-taken}', true],
  ])('%s: %s', (condition, expected) => {
    expect(clear(condition, low)).toBe(expected);
  });

  it('within counts only while it is current; out also when it is stale and nothing retook it', () => {
    const worked = `${low}\n${log('10:00 did: replaced, what: control-module')}`;
    expect(clear('{finding: bench/rails, verdict: within, subject: RF}', worked)).toBe(false);
    expect(clear('{finding: bench/rails, subject: LF}', worked)).toBe(true);
  });

  it('a superseded out counts for nothing', () => {
    const again = `snapshots:
  - {id: a, at: 2026-03-02T09:00, state: key-on, readings: {position: {LF: 0.10 V}}}
  - {id: b, at: 2026-03-02T09:10, state: key-on, readings: {position: {LF: 2.50 V}}}`;
    expect(clear('{finding: bench/rails, subject: LF}', again)).toBe(false);
    expect(clear('{finding: bench/rails, verdict: within, subject: LF}', again)).toBe(true);
  });
});

describe('no-finding', () => {
  const hold = keyOn('{position: {LF: 0.10 V}, supply: 12.40 V}');
  const look = keyOn('{position: {LF: 2.50 V}, supply: 11.00 V}');
  const code =
    'snapshots: [{id: a, at: 2026-03-02T09:00, state: key-on, codes: [{code: C1A21, means: not-calibrated}]}]';

  it.each([
    ['weight: hold', hold, false],
    ['weight: hold', look, true],
    ['weight: look', look, false],
    ['weight: hold, packs: [elsewhere]', hold, true],
    ['weight: hold, packs: [bench]', hold, false],
    ['weight: hold, except-checks: [bench/rails]', hold, true],
    ['weight: hold', code, false],
    ['weight: hold, except-means: [not-calibrated]', code, true],
    ['weight: hold, except-means: [pressure]', code, false],
  ])('%s', (asked, job, expected) => {
    expect(clear(`{no-finding: {${asked}}}`, job)).toBe(expected);
  });

  it('names the findings that stand against it', () => {
    expect(point('{no-finding: {weight: hold}}', hold).reasons).toEqual([
      expect.objectContaining({ kind: 'finding', finding: 'bench/rails:LF@as-found', stale: false }),
    ]);
  });

  it('is not cleared by work alone: a stale out stands until it is retaken', () => {
    const worked = `${hold}\n${log('10:00 did: replaced, what: sensor.LF')}`;
    expect(point('{no-finding: {weight: hold}}', worked)).toMatchObject({
      clear: false,
      reasons: [{ kind: 'finding', stale: true }],
    });
  });

  it('is cleared by a waiver', () => {
    const waived = `${hold}\nwaivers: [{finding: bench/rails, reason: tested, by: workshop lead, until: 2026-03-09}]`;
    expect(clear('{no-finding: {weight: hold}}', waived)).toBe(true);
  });
});

describe('code-means', () => {
  const listed = (codes: string) =>
    `snapshots: [{id: a, at: 2026-03-02T09:00, state: key-on, codes: [${codes}]}]`;

  it('holds for a code that counts and means so', () => {
    const asked = '{code-means: [not-calibrated, not-configured]}';
    expect(clear(asked, listed('{code: C1A21, means: not-calibrated}'))).toBe(true);
    expect(clear(asked, listed('{code: C1A21, means: pressure}'))).toBe(false);
    expect(clear(asked, listed('{code: C1A21, means: not-calibrated, status: history}'))).toBe(false);
    expect(clear(asked, listed(''))).toBe(false);
  });
});

describe('taken', () => {
  const both = `snapshots:
  - {id: a, at: 2026-03-02T09:00, state: key-on, readings: {supply: 12.40 V}}
  - {id: b, at: 2026-03-02T09:10, state: running, readings: {supply: 14.20 V}}`;

  it('wants readings in every state that it names', () => {
    expect(clear('{taken: key-on}', both)).toBe(true);
    expect(clear('{taken: [key-on, running]}', both)).toBe(true);
    expect(clear('{taken: [key-on, cranking]}', both)).toBe(false);
    expect(point('{taken: [key-on, cranking]}', both).reasons).toEqual([
      { kind: 'not-taken', states: ['cranking'], mark: null, tooLate: false },
    ]);
    expect(
      clear('{taken: key-on}', 'snapshots: [{id: a, at: 2026-03-02T09:00, state: key-on, codes: []}]'),
    ).toBe(false);
  });

  it.each([
    ['before-work', '09:30', true],
    ['before-work', '09:05', false],
    ['before-work', '09:10', false],
    ['after-work', '09:30', false],
    ['after-work', '08:59', true],
    ['after-work', '09:00', false],
  ])('%s with work at %s: %s', (mark, time, expected) => {
    const job = `${both}\n${log(`${time} did: replaced, what: sensor.LR`)}`;
    expect(clear(`{taken: [key-on, running], when: ${mark}}`, job)).toBe(expected);
  });

  it('before-work needs no work, and says when it is too late; after-work needs some', () => {
    expect(clear('{taken: key-on, when: before-work}', both)).toBe(true);
    expect(clear('{taken: key-on, when: after-work}', both)).toBe(false);
    const late = `${both}\n${log('08:00 did: replaced, what: sensor.LR')}`;
    expect(point('{taken: key-on, when: before-work}', late).reasons).toEqual([
      { kind: 'not-taken', states: ['key-on'], mark: 'before-work', tooLate: true },
    ]);
  });

  it('before-work is before the first work, after-work after the last', () => {
    const job = `${both}\n${log('09:05 did: replaced, what: sensor.LR', '09:30 did: replaced, what: sensor.RR')}`;
    expect(clear('{taken: key-on, when: before-work}', job)).toBe(true);
    expect(clear('{taken: running, when: before-work}', job)).toBe(false);
    expect(clear('{taken: running, when: after-work}', job)).toBe(false);
  });
});

describe('code-list', () => {
  const listed = (time: string, state = 'key-on') =>
    `snapshots: [{id: a, at: 2026-03-02T${time}, state: ${state}, codes: []}]`;
  const cleared = log('10:00 did: cleared, what: codes');
  const drove = log('10:00 did: drove, what: road-test');
  const drovefailed = log('10:00 did: drove, what: road-test, result: failed');

  it.each([
    ['ever', listed('09:00'), '', true],
    ['ever', 'snapshots: []', '', false],
    ['before-clear', listed('09:00'), cleared, true],
    ['before-clear', listed('10:00'), cleared, false],
    ['before-clear', listed('10:30'), cleared, false],
    ['before-clear', listed('10:30'), '', true],
    ['after-clear', listed('10:30'), cleared, true],
    ['after-clear', listed('10:00'), cleared, false],
    ['after-clear', listed('10:30'), '', false],
    ['after-road-test', listed('10:30'), drove, true],
    ['after-road-test', listed('09:30'), drove, false],
    ['after-road-test', listed('10:30'), drovefailed, false],
    ['after-road-test', listed('10:30'), '', false],
  ])('%s', (mark, snapshots, entries, expected) => {
    expect(clear(`{code-list: ${mark}}`, `${snapshots}\n${entries}`)).toBe(expected);
  });

  it('may want a state', () => {
    expect(clear('{code-list: ever, state: key-on}', listed('09:00', 'running'))).toBe(false);
    expect(clear('{code-list: ever, state: running}', listed('09:00', 'running'))).toBe(true);
  });

  it('says when it is too late', () => {
    expect(point('{code-list: before-clear}', cleared).reasons).toEqual([
      { kind: 'no-code-list', mark: 'before-clear', tooLate: true },
    ]);
  });
});

describe('conditions', () => {
  const asked = '{conditions: {floor: level, load: empty}, where-read: [position]}';
  const shot = (id: string, time: string, words: string, readings: string) =>
    `  - {id: ${id}, at: 2026-03-02T${time}, state: key-on, conditions: {${words}}, readings: ${readings}}`;
  const heights = '{position: {LF: 2.50 V}}';

  it('are asked of the newest snapshot that read those channels', () => {
    const good = shot('a', '09:00', 'floor: level, load: empty', heights);
    const bad = shot('b', '09:30', 'floor: sloped, load: empty', heights);
    const other = shot('c', '10:00', 'floor: sloped', '{supply: 12.40 V}');
    const holds = (...shots: string[]) => clear(asked, `snapshots:\n${shots.join('\n')}`);
    expect(holds(good)).toBe(true);
    expect(holds(good, bad)).toBe(false);
    expect(holds(good, other)).toBe(true);
    expect(holds(other)).toBe(false);
    expect(holds(shot('a', '09:00', 'floor: level', heights))).toBe(false);
  });
});

describe('step and steps', () => {
  it('holds once the steps are done', () => {
    const programmed = log('09:00 did: completed, what: program');
    expect(clear('{step: program}', '')).toBe(false);
    expect(clear('{step: program}', programmed)).toBe(true);
    expect(clear('{step: [program, learn]}', programmed)).toBe(false);
    expect(point('{step: [program, learn]}', programmed).reasons).toEqual([
      { kind: 'step-open', step: 'bench/learn', title: 'Learn' },
    ]);
  });

  it('steps means every one but those that it excepts, readings to take included', () => {
    const done = log('09:00 did: completed, what: program');
    expect(clear('{steps: {except: [learn]}}', done)).toBe(false);
    expect(point('{steps: {except: [learn]}}', done).reasons).toEqual([
      { kind: 'step-open', step: 'readings/key-on', title: expect.any(String) },
    ]);
    const read = `${keyOn('{position: {LF: 2.5 V, RF: 2.5 V, LR: 2.5 V, RR: 2.5 V}, supply: 12.4 V}')}\n${done}`;
    expect(clear('{steps: {except: [learn]}}', read)).toBe(true);
    expect(clear('{steps: {}}', read)).toBe(false);
  });
});

describe('a hold point', () => {
  const held = `checks: []
steps:
  - {id: look, title: Look, minutes: 5}
  - {id: program, title: Program, minutes: 30, behind: program}
hold-points:
  - {id: program, title: Program, when: {did: replaced, what: control-module}, clear-when: {step: look}}`;
  const replaced = '08:00 did: replaced, what: control-module';

  it('keeps the steps behind it waiting until it is clear', () => {
    const closed = judge(held, log(replaced));
    expect(holdPointOf(closed, 'program').clear).toBe(false);
    expect(stepOf(closed, 'program')).toMatchObject({ state: 'waiting', waitsFor: ['hold-point/program'] });
    const open = judge(held, log(replaced, '09:00 did: completed, what: look'));
    expect(holdPointOf(open, 'program').clear).toBe(true);
    expect(stepOf(open, 'program').state).toBe('ready');
  });

  it('is absent, and keeps nothing, where it does not apply', () => {
    const sheet = judge(held, '');
    expect(sheet.holdPoints).toEqual([]);
    expect(stepOf(sheet, 'program').state).toBe('ready');
  });

  it('does not take back a step that was done all the same', () => {
    const sheet = judge(held, log(replaced, '09:00 did: completed, what: program'));
    expect(stepOf(sheet, 'program').state).toBe('done');
  });
});

describe('cost', () => {
  const costs = (authorised: string, lines: string) =>
    `costs:\n  currency: EUR\n  labour-rate: 60 / h\n  authorised: [${authorised}]\n  lines: [${lines}]`;
  const part = '{kind: part, what: sensor.LR, amount: 138}';
  const yes = (amount: number, time = '09:00') => `{at: "2026-03-02T${time}", amount: ${amount}}`;

  it('authorised once somebody has', () => {
    expect(clear('{cost: authorised}', costs('', part))).toBe(false);
    expect(clear('{cost: authorised}', costs(yes(1), part))).toBe(true);
  });

  it.each([
    [costs(yes(138), part), true],
    [costs(yes(137.99), part), false],
    [costs('', part), false],
    [costs('', ''), true],
    ['', true],
    [costs(`${yes(500)}, ${yes(100, '10:00')}`, part), false],
    [costs(`${yes(100, '10:00')}, ${yes(500, '11:00')}`, part), true],
    [costs(yes(500), '{kind: part, what: sensor.LR}'), false],
  ])('within authorised', (job, expected) => {
    expect(clear('{cost: within-authorised}', job)).toBe(expected);
  });

  it('says by how much, or what is not known', () => {
    expect(point('{cost: within-authorised}', costs(yes(100), part)).reasons).toEqual([
      { kind: 'cost-above', total: 138, authorised: 100, currency: 'EUR' },
    ]);
    expect(
      point('{cost: within-authorised}', costs(yes(100), '{kind: access, what: program}')).reasons,
    ).toEqual([{ kind: 'cost-unknown', what: 'program' }]);
  });
});

describe('evidence: fresh', () => {
  const read = keyOn('{position: {LF: 2.50 V}}');

  it('fails while something that was judged is stale and not read again', () => {
    const worked = `${read}\n${log('10:00 did: replaced, what: sensor.LF')}`;
    expect(clear('{evidence: fresh}', read)).toBe(true);
    expect(clear('{evidence: fresh}', worked)).toBe(false);
    expect(kinds('{evidence: fresh}', worked)).toEqual(['stale-evidence']);
  });

  it('holds again once it is', () => {
    const again = `snapshots:
  - {id: a, at: 2026-03-02T09:00, state: key-on, readings: {position: {LF: 2.50 V}}}
  - {id: b, at: 2026-03-02T11:00, state: key-on, readings: {position: {LF: 2.50 V}}}
${log('10:00 did: replaced, what: sensor.LF')}`;
    expect(clear('{evidence: fresh}', again)).toBe(true);
  });
});

describe('evidence: fresh, of what only a test asked for', () => {
  const pack = `checks:
  - {id: tank, kind: range, title: Tank, of: tank, in: [rest], wanted: in-test, basis: {kind: from-memory}, tiers: [{weight: look, at-least: 90 psi}]}
hold-points: [{id: point, title: Point, clear-when: {evidence: fresh}}]`;
  const worked = (tank: string) =>
    holdPointOf(
      judge(
        pack,
        `snapshots: [{id: a, at: 2026-03-02T09:00, state: rest, readings: {tank: ${tank}}}]
${log('10:00 did: replaced, what: compressor')}`,
      ),
      'point',
    ).clear;

  it('asks for a second reading of what was good, too: a stale reading proves nothing', () => {
    expect(worked('120 psi')).toBe(false);
    expect(worked('40 psi')).toBe(false);
  });

  it('asks for none of what was only about its moment', () => {
    const momentary = pack.replace('wanted: in-test,', 'wanted: in-test, moment: true,');
    const sheet = judge(
      momentary,
      `snapshots: [{id: a, at: 2026-03-02T09:00, state: rest, readings: {tank: 120 psi}}]
${log('10:00 did: replaced, what: compressor')}`,
    );
    expect(holdPointOf(sheet, 'point').clear).toBe(true);
    expect(sheet.steps.filter(({ id }) => id.startsWith('readings/'))).toEqual([]);
  });
});

describe('waivers: none-ended', () => {
  const waived = (supply: string, ...until: string[]): string => {
    const each = until.map(
      (day) => `{finding: bench/supply, reason: battery on order, by: workshop lead, until: ${day}}`,
    );
    return `${keyOn(`{supply: ${supply}}`)}\nwaivers: [${each.join(', ')}]`;
  };
  const low = waived('11.20 V', '2026-03-02');

  it('fails from the day after the last, while its finding is out', () => {
    expect(clear('{waivers: none-ended}', low, null, '2026-03-02T23:59')).toBe(true);
    expect(clear('{waivers: none-ended}', low, null, '2026-03-03T00:00')).toBe(false);
    expect(clear('{waivers: none-ended}', '')).toBe(true);
  });

  it('holds where a later waiver covers it, or where it is put right', () => {
    const renewed = waived('11.20 V', '2026-03-02', '2026-03-09');
    expect(clear('{waivers: none-ended}', renewed, null, '2026-03-03T00:00')).toBe(true);
    const good = waived('12.40 V', '2026-03-02');
    expect(clear('{waivers: none-ended}', good, null, '2026-03-03T00:00')).toBe(true);
  });
});

describe('cost: within-authorised, by word alone', () => {
  const part = 'costs: {lines: [{kind: part, what: sensor.LR, amount: 138}]}';

  it('holds once somebody authorised it and named no amount', () => {
    expect(clear('{cost: within-authorised}', part)).toBe(false);
    const said = `${part}\n${log('10:00 did: authorised, what: cost')}`;
    expect(clear('{cost: within-authorised}', said)).toBe(true);
  });
});

describe('work that failed', () => {
  const failed = log('10:00 did: replaced, what: sensor.LF, result: failed');

  it('brings what follows work, and is no evidence of it', () => {
    const pack = `${checks}
  - {id: look, title: Look, minutes: 5, when: {did: replaced, what: sensor}}`;
    expect(stepOf(judge(pack, failed), 'look').state).toBe('ready');
    expect(clear('{did: replaced, what: sensor}', failed)).toBe(false);
  });
});

describe('what a job waits for', () => {
  it('is told where it is no step, and stands with the step where it is one', () => {
    const job = log(
      '10:00 did: waiting, what: sensor.LR, for: parts counter',
      '10:10 did: waiting, what: readings/key-on, for: customer',
    );
    const sheet = judge(checks, job);
    expect(sheet.warnings).toContainEqual({ kind: 'waits', what: 'sensor.LR', waitsFor: 'parts counter' });
    expect(stepOf(sheet, 'readings/key-on')).toMatchObject({ state: 'waiting', waitsFor: ['customer'] });
  });
});

describe('money', () => {
  const within = '{cost: within-authorised}';
  const costs = (amount: number, authorised = '') =>
    `costs: {currency: EUR, ${authorised}lines: [{kind: part, what: sensor.LR, amount: ${amount}}]}\n`;
  const allowed = 'authorised: [{at: 2026-03-02T08:00, amount: 100, by: desk}], ';
  const isClear = (asked: string, job: string, terms: Partial<ShopTerms>): boolean =>
    holdPointOf(
      judge(`${checks}\nhold-points: [{id: point, title: Point, clear-when: ${asked}}]`, job, evening, {
        ...shopWith(null),
        terms: { ...usualTerms, ...terms },
      }),
      'point',
    ).clear;

  it('may be above what was authorised by the tolerance of the shop', () => {
    expect(isClear(within, costs(105, allowed), {})).toBe(false);
    expect(isClear(within, costs(105, allowed), { tolerance: 5 })).toBe(true);
    expect(isClear(within, costs(106, allowed), { tolerance: 5 })).toBe(false);
  });

  it('needs nobody up to the standing authority of the shop', () => {
    const standing = { by: 'fleet desk', upTo: 250 };
    for (const asked of [within, '{cost: authorised}']) {
      expect(isClear(asked, costs(250), { standing })).toBe(true);
      expect(isClear(asked, costs(251), { standing })).toBe(false);
    }
  });

  it('was authorised where somebody said so without an amount, until it was declined', () => {
    const said = log('09:00 did: authorised, what: cost');
    expect(isClear('{cost: authorised}', costs(300) + said, {})).toBe(true);
    const declined = log('09:00 did: authorised, what: cost', '09:30 did: declined, what: cost');
    expect(isClear('{cost: authorised}', costs(300) + declined, {})).toBe(false);
  });
});

describe('access', () => {
  const asked = '{access: height-learn}';
  const paid: Equipment = {
    name: "maker's own software",
    does: ['height-learn'],
    access: { amount: 74, lasts: null },
  };
  const window = (from: string, lasts: string) =>
    `costs: {lines: [{kind: access, what: height-learn, amount: 74, from: ${from}, lasts: ${lasts}}]}`;
  const open = (job: string, equipment: Equipment[] | null, asOf = evening) =>
    clear(asked, job, equipment, asOf);

  it('is open where the equipment asks no fee, or nothing says that it does', () => {
    expect(open('', [{ ...paid, access: null }])).toBe(true);
    expect(open('', [paid, { ...paid, name: 'another', access: null }])).toBe(true);
    expect(open('', null)).toBe(true);
  });

  it('is closed until it is paid for, and names the equipment', () => {
    expect(open('', [paid])).toBe(false);
    expect(
      holdPointOf(
        judge(
          `${checks}\nhold-points: [{id: point, title: Point, clear-when: ${asked}}]`,
          '',
          evening,
          shopWith([paid]),
        ),
        'point',
      ).reasons,
    ).toMatchObject([
      {
        kind: 'access-closed',
        capability: 'height-learn',
        amount: 74,
        ended: null,
        equipment: "maker's own software",
      },
    ]);
  });

  it('is open inside its window', () => {
    expect(open(window('2026-03-02T11:00', 'P7D'), [paid])).toBe(true);
    expect(open(window('2026-03-02T21:00', 'P7D'), [paid])).toBe(false);
    expect(open(window('2026-02-20T11:00', 'P7D'), [paid])).toBe(false);
  });

  it('must stay open for as long as the steps that need it still take: an hour here', () => {
    const job = window('2026-03-02T11:00', 'P1D');
    expect(open(job, [paid], '2026-03-03T10:00')).toBe(true);
    expect(open(job, [paid], '2026-03-03T10:01')).toBe(false);
    const learned = `${job}\n${log('12:00 did: completed, what: learn')}`;
    expect(open(learned, [paid], '2026-03-03T10:59')).toBe(true);
    expect(open(learned, [paid], '2026-03-03T11:01')).toBe(false);
  });

  it('counts a window of another capability for nothing', () => {
    expect(
      open(window('2026-03-02T11:00', 'P7D').replace('what: height-learn', 'what: program'), [paid]),
    ).toBe(false);
  });
});

describe('the reasons of a hold point', () => {
  it('name a finding that is out once, not again as one that is not shown to be within', () => {
    const low = keyOn('{supply: 11.20 V}');
    const both = '{all: [{no-finding: {weight: look}}, {finding: bench/supply, verdict: within}]}';
    expect(kinds(both, low)).toEqual(['finding']);
    expect(kinds('{finding: bench/supply, verdict: within}', low)).toEqual(['finding-wanted']);
  });
});
