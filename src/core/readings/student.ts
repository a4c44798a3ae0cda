/** Two-sided 95 % points of Student's distribution for 1 to 20 degrees of freedom. */
const table = [
  12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228, 2.201, 2.179, 2.16, 2.145, 2.131,
  2.12, 2.11, 2.101, 2.093, 2.086,
];

/**
 * The coverage factor for about 95 % where a standard error rests on few points; never less than the usual 2.
 * Values as in the tables of JCGM 100:2008, annex G; held to the distribution itself in tests/outside/student.test.ts.
 *
 * @param freedom degrees of freedom, 1 or more
 */
export const studentFactor = (freedom: number): number => Math.max(2, table[freedom - 1] ?? 2);
