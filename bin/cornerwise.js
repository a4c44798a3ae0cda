#!/usr/bin/env node
'use strict';
const { join } = require('node:path');
const { load } = require('./load.cjs');

const { realIo, run } = load(join(__dirname, '../dist/main.cjs'));

run(process.argv.slice(2), realIo()).then((code) => {
  process.exitCode = code;
});
