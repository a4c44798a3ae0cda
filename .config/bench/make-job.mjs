// A job file with as many snapshots as wanted, written as somebody types it; the same for the same number.
const states = ['key-on', 'cranking', 'running'];

/** Numbers that look random and are not: a linear congruential generator (Numerical Recipes' constants). */
const numbers = (seed) => {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
};

const volts = (value) => `${value.toFixed(2)} V`;

const snapshot = (index, next) => {
  const state = states[index % states.length];
  const at = new Date(Date.UTC(2026, 2, 2, 8) + index * 60_000).toISOString().slice(0, 16);
  const around = (value) => volts(value + (next() - 0.5) * 0.06);
  const head = [`  - id: taken-${index + 1}`, `    at: ${at}`, `    state: ${state}`];
  if (state === 'cranking')
    return [...head, '    conditions: {air: 8 °C}', `    readings: {battery: ${around(10.4)}}`];
  return [
    ...head,
    '    conditions: {floor: level, load: empty, air: 8 °C, levelling: disabled, maintainer: off}',
    '    readings:',
    `      supply: ${around(state === 'running' ? 14.1 : 12.3)}`,
    `      battery: ${around(state === 'running' ? 14.2 : 12.4)}`,
    `      reference: ${around(5)}`,
    `      position: {LF: ${around(2.48)}, RF: ${around(2.55)}, LR: ${around(2.41)}, RR: ${around(2.62)}}`,
    '      tank: 120 psi',
    '    lamp: off',
    '    codes: []',
  ];
};

/** The text of a job with `count` snapshots. */
export const makeJob = (count, seed = 1) => {
  const next = numbers(seed);
  const snapshots = Array.from({ length: count }, (_, index) => snapshot(index, next)).flat();
  return `${[
    'worksheet: 1',
    'job: S07-9000',
    'title: Readings in great number',
    'opened: 2026-03-02T07:30',
    'zone: UTC',
    'status: open',
    'packs: [position-signals@2, body-heights@1, supply-charging@2, air-supply@2, module-replacement@1, handover@2]',
    'vehicle: {name: Shuttle 7, layout: four-corner-air, system: 12 V, battery: agm, charging: fixed}',
    'snapshots:',
    ...snapshots,
  ].join('\n')}\n`;
};
