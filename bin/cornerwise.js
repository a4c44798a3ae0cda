#!/usr/bin/env node
'use strict';
const { join } = require('node:path');

const words = process.argv.slice(2);

if (words.length === 1 && (words[0] === '--version' || words[0] === '-V')) {
  // Scripts ask for it often, and it wants none of the program.
  process.stdout.write(`${require('../package.json').version}\n`);
} else {
  const { makeLoader } = require('./load.cjs');
  const { realIo, run } = makeLoader().load(join(__dirname, '../dist/main.cjs'));
  run(words, realIo()).then((code) => {
    process.exitCode = code;
  });
}
