/** Two-sided 95 % points of Student's distribution for 1 to 20 degrees of freedom. */
const table = [
  12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228, 2.201, 2.179, 2.16, 2.145, 2.131,
  2.12, 2.11, 2.101, 2.093, 2.086,
];

/** The same point of the normal distribution. */
const normal = 1.959_964;

/** Beyond the table, to 0.0001: the expansion in powers of 1/freedom of Abramowitz and Stegun, 26.7.5. */
const expanded = (freedom: number): number => {
  const [first, second, third] = [
    (normal ** 3 + normal) / 4,
    (5 * normal ** 5 + 16 * normal ** 3 + 3 * normal) / 96,
    (3 * normal ** 7 + 19 * normal ** 5 + 17 * normal ** 3 - 15 * normal) / 384,
  ];
  return normal + first / freedom + second / freedom ** 2 + third / freedom ** 3;
};

/**
 * The coverage factor for about 95 % where a standard error rests on few points; never less than the usual 2.
 * Values as in the tables of JCGM 100:2008, annex G; held to the distribution itself in tests/outside/student.test.ts.
 *
 * @param freedom degrees of freedom, 1 or more
 */
export const studentFactor = (freedom: number): number =>
  Math.max(2, table[freedom - 1] ?? expanded(freedom));
