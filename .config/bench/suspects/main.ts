// `npm run bench:suspects`: how well the suspects are ranked over a simulated fleet, and what following the advised
// tests costs. Ends with exit code 1 where a target is not reached.
import { type Policy, policies, type Result, tryVehicle } from './fleet.ts';
import { shippedPacks } from './judging.ts';
import { faultLines, percent, policyLine, scoreLines } from './print.ts';
import { leaderBrier, mean } from './score.ts';

/** A whole number above 0 from the environment; anything else is a mistake of the call. */
const numberFrom = (name: string, usual: number): number => {
  const text = process.env[name];
  const number = text === undefined ? usual : Number(text);
  if (!Number.isSafeInteger(number) || number < 1) throw new Error(`${name} wants a whole number above 0`);
  return number;
};

const vehicles = numberFrom('BENCH_VEHICLES', 1200);
const seed = numberFrom('BENCH_SEED', 1);
const root = process.env.BENCH_ROOT ?? '.';

const started = Date.now();
const packs = await shippedPacks(root);
const results: Result[] = Array.from({ length: vehicles }, (_, number) => tryVehicle(seed, number, packs));

const full = results.flatMap(({ full: one }) => one ?? []);
const first = results.flatMap(({ first: one }) => one ?? []);
const healthy = results.filter((one) => one.full === null);
const alarmed = healthy.filter(({ falseAlarms }) => falseAlarms.length > 0);
const told = full.filter((one) => one.told && one.seen);
const right = told.filter((one) => one.first).length;
const paid = results.flatMap(({ costs }) => costs ?? []);
const cost = (policy: Policy): number => mean(paid.map((one) => one[policy].cost));

console.log(`a simulated fleet of ${vehicles}, seed ${seed}: ${healthy.length} healthy`);
console.log('\nthe full sheet: all that the packs have channels for');
for (const line of [...faultLines(full), ...scoreLines(full)]) console.log(line);
console.log('\nthe first look: scan tool, and a meter at the battery');
for (const line of [...faultLines(first), ...scoreLines(first)]) console.log(line);
console.log(`\nexcess cost of ${paid.length} vehicles whose first look shows something`);
console.log(
  `  ${'policy'.padEnd(26)}${'mean'.padStart(9)}${'tests'.padStart(7)}${'right'.padStart(9)}${'wrong'.padStart(9)}${'escalated'.padStart(9)}`,
);
const names = Object.keys(policies) as Policy[];
for (const name of names)
  console.log(
    policyLine(
      name,
      paid.map((one) => one[name]),
    ),
  );
const lacking = paid.flatMap((one) => one['follow the advised tests'].lacks);
const unmet = [...new Set(lacking)].map((id) => `${id} ${lacking.filter((one) => one === id).length}`);
console.log(`  advice that ended in escalating lacked: ${unmet.join(', ') || 'nothing'}`);

const advised = cost('follow the advised tests');
const brier = leaderBrier(told);
const targets: readonly (readonly [string, boolean])[] = [
  [
    `right first, told apart by readings, full sheet: ${percent(right, told.length)}, at least 97 %`,
    right >= 0.97 * told.length,
  ],
  [`Brier of the first, told apart by readings, full sheet: ${brier.toFixed(4)}, under 0.08`, brier < 0.08],
  [`healthy with anything out: ${alarmed.length} of ${healthy.length}, none`, alarmed.length === 0],
  ...names.slice(1).map((name): readonly [string, boolean] => {
    const other = cost(name);
    return [`advised ${advised.toFixed(2)}, under ${other.toFixed(2)}: ${name}`, advised < other];
  }),
];
console.log('\ntargets');
for (const [line, reached] of targets) console.log(`  ${reached ? 'reached' : 'MISSED '}  ${line}`);
for (const { falseAlarms } of alarmed.slice(0, 5))
  console.log(`  out on a healthy one: ${falseAlarms.join(' ')}`);
console.log(`${((Date.now() - started) / 1000).toFixed(0)} s`);
process.exitCode = targets.every(([, reached]) => reached) ? 0 : 1;
