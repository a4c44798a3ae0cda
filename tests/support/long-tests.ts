/** Whether tests that walk at random go the long way: the continuous integration does, and `LONG_TESTS=1 npm test`. */
export const longTests = process.env.LONG_TESTS === '1';
