// `npm run bench:suspects`: how well the suspects are ranked over a simulated fleet, and what following the advised
// tests costs. Ends with exit code 1 where a target is not reached. BENCH_VEHICLES and BENCH_SEED set the fleet,
// BENCH_WALKED how many of it the policies are tried on, BENCH_TEXT=17 prints the full sheet of one vehicle.
import { type Policy, policies, type Result, textOf, tryVehicle } from './fleet.ts';
import { shippedPacks } from './judging.ts';
import { faultLines, percent, policyLine, scoreLines, tally } from './print.ts';
import { leaderBrier, mean, meanBrier, reliability } from './score.ts';

/** A whole number above 0 from the environment; anything else is a mistake of the call. */
const numberFrom = (name: string, usual: number): number => {
  const text = process.env[name];
  const number = text === undefined ? usual : Number(text);
  if (!Number.isSafeInteger(number) || number < 1) throw new Error(`${name} wants a whole number above 0`);
  return number;
};

const vehicles = numberFrom('BENCH_VEHICLES', 1000);
const seed = numberFrom('BENCH_SEED', 1);
const walked = numberFrom('BENCH_WALKED', Math.ceil(vehicles / 3));
const root = process.env.BENCH_ROOT ?? '.';

if (process.env.BENCH_TEXT !== undefined) {
  console.log(textOf(seed, numberFrom('BENCH_TEXT', 1), 'full sheet'));
  process.exit(0);
}

const started = Date.now();
const packs = await shippedPacks(root);
const results: Result[] = Array.from({ length: vehicles }, (_, number) =>
  tryVehicle(seed, number, packs, number < walked),
);

const full = results.flatMap(({ full: one }) => one ?? []);
const first = results.flatMap(({ first: one }) => one ?? []);
const healthy = results.filter(({ member }) => member.troubles.length === 0);
const alarms = healthy.flatMap(({ falseAlarms }) => falseAlarms);
const alarmed = healthy.filter(({ falseAlarms }) => falseAlarms.length > 0);
const paid = results.flatMap(({ costs, member }) => (costs ? [{ costs, member }] : []));
const cost = (policy: Policy): number => mean(paid.map(({ costs }) => costs[policy].cost));
const names = Object.keys(policies) as Policy[];
const [advising, ...others] = names;
if (!advising) throw new Error('there is no policy');

console.log(
  `a simulated fleet of ${vehicles}, seed ${seed}: ${healthy.length} healthy, ${full.filter(({ pair }) => pair).length} with two faults`,
);
console.log('\nthe full sheet: all that the packs have channels for');
for (const line of [...faultLines(full), ...scoreLines(full)]) console.log(line);
console.log('\nthe first look: scan tool, and a meter at the battery');
for (const line of [...faultLines(first), ...scoreLines(first)]) console.log(line);
console.log(`\nhealthy with anything out at look or hold: ${alarmed.length} of ${healthy.length}`);
console.log(`  ${tally(alarms) || 'nothing'}`);
for (const { number, falseAlarms } of alarmed.slice(0, 12))
  console.log(`  vehicle ${number}: ${falseAlarms.join(', ')}`);
console.log(`\nexcess cost of ${paid.length} vehicles whose first look shows something`);
console.log(
  `  ${'policy'.padEnd(26)}${'mean'.padStart(9)}${'tests'.padStart(7)}${'right'.padStart(10)}${'wrong'.padStart(10)}${'escalated'.padStart(10)}`,
);
for (const name of names)
  console.log(
    policyLine(
      name,
      paid.map(({ costs }) => costs[name]),
    ),
  );
const lacking = paid.flatMap(({ costs }) => costs[advising].lacks);
console.log(`  advice that ended in escalating lacked: ${tally(lacking) || 'nothing'}`);
const wrong = paid.filter(({ costs }) => costs[advising].end === 'wrong');
const wrongly = wrong.map(
  ({ costs, member }) =>
    `${costs[advising].action} for ${member.troubles.map(({ fault }) => fault.name).join(' + ')}`,
);
console.log(`  wrong parts advised: ${wrong.length}${wrong.length > 0 ? `: ${tally(wrongly)}` : ''}`);

const told = full.filter((one) => one.told && one.seen && !one.pair);
const right = told.filter((one) => one.first).length;
const deciles = reliability(first.filter(({ seen }) => seen)).filter(({ count }) => count >= 20);
const astray = deciles.filter((one) => Math.abs(one.said - one.right) > 0.1);
const targets: readonly (readonly [string, boolean])[] = [
  [
    `right class first, one fault told by readings, full sheet: ${percent(right, told.length)}, at least 97 %`,
    right >= 0.97 * told.length,
  ],
  [
    `Brier over all classes, the same: ${meanBrier(told).toFixed(4)}, at most 0.08 (leader's ${leaderBrier(told).toFixed(4)})`,
    meanBrier(told) <= 0.08,
  ],
  [
    `first look calibrated within 0.1: ${deciles.length - astray.length} of ${deciles.length} deciles with 20 or more`,
    astray.length === 0,
  ],
  [`healthy with anything out: ${alarmed.length} of ${healthy.length}, none`, alarmed.length === 0],
  ...others.map((name): readonly [string, boolean] => [
    `advised ${cost(advising).toFixed(2)}, under ${cost(name).toFixed(2)}: ${name}`,
    cost(advising) < cost(name),
  ]),
];
console.log('\ntargets');
for (const [line, reached] of targets) console.log(`  ${reached ? 'reached' : 'MISSED '}  ${line}`);
// Beside the report, which is the same for the same fleet.
console.error(`${((Date.now() - started) / 1000).toFixed(0)} s`);
process.exitCode = targets.every(([, reached]) => reached) ? 0 : 1;
