'use strict';
// Loaded before a program that is measured: writes on file descriptor 3 the most memory that it used at once, in KiB,
// and its CPU time, in microseconds.
const { writeSync } = require('node:fs');

process.on('exit', () => {
  const { maxRSS, userCPUTime, systemCPUTime } = process.resourceUsage();
  writeSync(3, `${maxRSS} ${userCPUTime + systemCPUTime}`);
});
