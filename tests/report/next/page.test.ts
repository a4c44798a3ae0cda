import { describe, expect, it } from 'vitest';
import type { RankedTest, Ranking } from '../../../src/core/suspects/ranking.ts';
import { percentText } from '../../../src/report/next/advice-condition.ts';
import { adviceLines } from '../../../src/report/next/advice-lines.ts';
import { pairText, suspectsBrief } from '../../../src/report/next/brief.ts';
import { renderNext } from '../../../src/report/next/page.ts';
import { ledgerLines, suspectLines } from '../../../src/report/next/suspect-lines.ts';
import { nextTestLines } from '../../../src/report/next/test-lines.ts';
import { makeStyle } from '../../../src/report/style.ts';
import { judge, keyOn } from '../../support/judge.ts';

const style = makeStyle({
  width: 80,
  colour: 0,
  ascii: false,
  all: false,
  pressureUnit: null,
  temperatureUnit: null,
});
const everything = makeStyle({ ...style.options, all: true });

const ranking: Ranking = {
  suspects: [
    {
      id: 'sensor.LR',
      title: 'position sensor, LR',
      mode: null,
      component: null,
      isPart: true,
      probability: 0.991,
      for: ['bench/rails:LR@as-found'],
      against: [],
      rival: 'wiring.LR',
      ledger: [
        {
          group: 'prior',
          title: 'before any reading',
          from: [],
          observed: '',
          likelihood: 0.4,
          rival: 0.2,
          points: 3.01,
        },
        {
          group: 'pinned',
          title: 'Pinned',
          from: ['bench/rails:LR@as-found'],
          observed: 'LR',
          likelihood: 0.85,
          rival: 0.1,
          points: 9.29,
        },
        {
          group: 'supply',
          title: 'Supply',
          from: [],
          observed: 'within',
          likelihood: 0.98,
          rival: 0.98,
          points: 0,
        },
      ],
      wrongPart: 158,
      mends: ['sensor.LR'],
    },
    {
      id: 'wiring.LR',
      title: 'sensor wiring, LR',
      component: null,
      isPart: true,
      probability: 0.006,
      for: [],
      against: [],
      rival: 'sensor.LR',
      ledger: [],
      mode: null,
      wrongPart: null,
      mends: [],
    },
    {
      id: 'something-else',
      title: 'something else',
      component: null,
      isPart: true,
      probability: 0.003,
      for: [],
      against: [],
      rival: 'sensor.LR',
      ledger: [],
      mode: null,
      wrongPart: null,
      mends: [],
    },
  ],
  hypotheses: [],
  evidence: [],
  pair: null,
  nextTests: ['one', 'two', 'three', 'four'].map((id, index) => ({
    id: `${id}.LR`,
    title: `Test ${id}`,
    minutes: 6 + index,
    brings: 0,
    elapsed: 0,
    bits: 0.5,
    confirms: false,
    saves: index === 0 ? 41.4 : null,
    savesAlone: null,
    price: null,
    neededAnyway: 0,
    cautions: ['Mind the arches.'],
    points: ['slowly'],
    outcomes: [
      {
        id: 'jumps',
        title: 'it jumps',
        chance: 0.25,
        leader: 'sensor.LR',
        probability: 0.999,
        under: new Map(),
        likelihoods: [],
      },
    ],
  })),
  advice: {
    suspect: 'sensor.LR',
    met: false,
    wrongPart: 130,
    escalate: 350,
    rate: 80,
    rateAssumed: false,
    worthFixing: 0.27,
    conditions: [
      { id: 'least-risk', met: true, lacks: [], threshold: null },
      { id: 'no-test-pays', met: false, lacks: ['one.LR', 'two.LR', 'three.LR', 'four.LR'], threshold: null },
      { id: 'over-threshold', met: true, lacks: [], threshold: 0.27 },
      { id: 'confirmed', met: false, lacks: ['arm-by-hand.LR'], threshold: null },
      { id: 'robust', met: true, lacks: [], threshold: null },
    ],
  },
  stakes: null,
  conflict: [],
};
const titles = new Map(ranking.suspects.map(({ id, title }) => [id, title]));

describe('two faults at once', () => {
  it('are named where they beat every single one, and only there', () => {
    expect(pairText(ranking)).toBeNull();
    expect(pairText({ ...ranking, pair: ['sensor.LR', 'wiring.LR'] })).toBe(
      'Two faults at once explain this better than any one: position sensor, LR and sensor wiring, LR.',
    );
  });
});

describe('a test that must confirm', () => {
  const one = { ...ranking.nextTests[0], saves: -4, elapsed: 0, brings: 0 } as RankedTest;
  const lines = (test: RankedTest): string =>
    nextTestLines({ ...ranking, nextTests: [test] }, titles, 'EUR', style).join('\n');

  it('is shown whatever it saves', () => {
    expect(lines(one)).toContain('None is worth its minutes now');
    expect(lines({ ...one, confirms: true })).toContain('wanted before the repair');
  });

  it('says how long there is to wait', () => {
    expect(lines({ ...one, confirms: true, elapsed: 60 })).toContain('and 60 min of waiting');
    expect(lines({ ...one, confirms: true, elapsed: 600 })).toContain('and 10 h of waiting');
  });
});

describe('suspects', () => {
  it('are shown at 95 % at most until a confirming test has passed', () => {
    expect(percentText(0.991)).toBe('95 %');
    expect(percentText(0.991, true)).toBe('99 %');
    expect(percentText(0.001)).toBe('under 1 %');
    expect(suspectLines(ranking, style)[0]).toMatch(/^ +95 % {2}■{19} +position sensor, LR$/u);
    const confirmed = {
      ...ranking,
      advice: ranking.advice && {
        ...ranking.advice,
        conditions: ranking.advice.conditions.map((one) => ({ ...one, met: true })),
      },
    };
    expect(suspectLines(confirmed, style)[0]).toContain('99 %');
  });

  it('under 1 % are counted, and listed when all are asked for', () => {
    expect(suspectLines(ranking, style)).toHaveLength(2);
    expect(suspectLines(ranking, style)[1]).toContain('and 2 more, each under 1 %');
    expect(suspectLines(ranking, everything)).toHaveLength(3);
  });

  it('have a ledger, the heaviest first, that adds up to what stands below it', () => {
    const [first] = ranking.suspects;
    const lines = first ? ledgerLines(first, titles, style) : [];
    expect(lines.slice(2)).toEqual([
      '     +9.3  Pinned: LR',
      '     +3.0  before any reading',
      '    +12.3  together',
    ]);
    expect(lines.join(' ')).toContain('position sensor, LR against sensor wiring, LR');
  });

  it('show every number of the ledger with all', () => {
    const [first] = ranking.suspects;
    const text = first ? ledgerLines(first, titles, everything).join('\n') : '';
    expect(text).toContain('[0.850 against 0.100; bench/rails:LR@as-found]');
    expect(text).toContain('Supply: within');
  });
});

describe('next tests', () => {
  it('are three, with minutes, saving, what each outcome would change, and each caution once', () => {
    const lines = nextTestLines(ranking, titles, 'EUR', style);
    expect(lines[0]).toBe('  1  Test one (one.LR), 6 min, saves about 41 EUR');
    expect(lines).toContain('     it jumps (25 % likely): then position sensor, LR, 95 %');
    expect(lines.filter((line) => /^ {2}\d/u.test(line))).toHaveLength(3);
    expect(lines.filter((line) => line.includes('CAUTION'))).toHaveLength(1);
    expect(
      nextTestLines(ranking, titles, null, everything).filter((line) => /^ {2}\d/u.test(line)),
    ).toHaveLength(4);
  });
});

describe('advice', () => {
  it('tells each condition as met or not, and what lacks', () => {
    const lines = ranking.advice ? adviceLines(ranking.advice, ranking, 'EUR', style) : [];
    expect(lines[0]).toBe('Do not order yet: position sensor, LR');
    expect(lines).toContain('  met      nothing else that could be done now risks less');
    expect(lines.join(' ')).toMatch(/one\.LR, two\.LR, three\.LR and 1\s+more/u);
    expect(lines).toContain('  NOT MET  not confirmed yet: arm-by-hand.LR');
    expect(lines).toContain('  met      likely enough to be worth its price (from 27 % on)');
  });
});

describe('the page', () => {
  const pack = `checks:
  - {id: rails, kind: range, title: Clear of the rails, of: position, in: [key-on], tiers: [{weight: hold, between: [0.25 V, 4.75 V]}], basis: {kind: common-practice}}`;
  const sheet = (volts: string) => judge(pack, keyOn(`{position: {LF: ${volts}}}`));

  it('says that nothing is out where nothing is', () => {
    expect(renderNext(sheet('2.48 V'), 's7.yaml', style)).toContain(
      'Nothing is out, so there is no suspect.',
    );
    expect(suspectsBrief(sheet('2.48 V'), style)).toBeNull();
  });

  it('says that the packs have no suspects where something is out', () => {
    expect(renderNext(sheet('0.10 V'), 's7.yaml', style)).toContain('No pack of this job has suspects');
  });

  it('names the findings that no one suspect explains', () => {
    const one = { ...sheet('0.10 V'), ranking: { ...ranking, conflict: ['bench/rails:LF@as-found'] } };
    const text = renderNext(one, 's7.yaml', style);
    expect(text).toContain('More than one fault, or a wrong reading');
    expect(text).toContain('  - Clear of the rails (LF):');
  });

  it('is a line in the worksheet, which says elsewhere what to do now', () => {
    expect(suspectsBrief({ ...sheet('0.10 V'), ranking }, style)).toBe('Suspects: position sensor, LR 95 %');
  });
});
