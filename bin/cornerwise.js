#!/usr/bin/env node
'use strict';
const { writeSync } = require('node:fs');
const { join } = require('node:path');

const words = process.argv.slice(2);
// Whatever ends the program before it has an answer is a fault: 1 would mean that something is out.
process.exitCode = 3;

const say = (text) => {
  try {
    writeSync(2, `cornerwise: ${text}\n`);
  } catch {
    // Nobody reads it; the exit code tells.
  }
};

const load = () => {
  try {
    return require(join(__dirname, '../dist/main.cjs'));
  } catch (error) {
    const state = error.code === 'MODULE_NOT_FOUND' ? 'not built yet' : `damaged (${error.message})`;
    say(`this copy of the program is ${state}; run "npm ci" in ${join(__dirname, '..')}`);
    return null;
  }
};

if (words.length === 1 && (words[0] === '--version' || words[0] === '-V')) {
  // Scripts ask for it often, and it wants none of the program.
  try {
    writeSync(1, `${require('../package.json').version}\n`);
    process.exitCode = 0;
  } catch (error) {
    if (error.code === 'EPIPE') process.exitCode = 0;
    else say(`what was to be printed could not be written (${error.code})`);
  }
} else {
  load()?.main(words);
}
