'use strict';
const { readFileSync } = require('node:fs');
const { createRequire } = require('node:module');
const { dirname, join } = require('node:path');
const { Script } = require('node:vm');

/** The exports of the parts that were loaded, and their scripts, by file. */
const loaded = new Map();

const compiledAhead = (file) => {
  try {
    return readFileSync(`${file}.cache`);
  } catch {
    return undefined;
  }
};

/**
 * What a part gives, as values instead of getters: a part changes none of it once it has run, and calls from one part
 * to another are then as quick as within one.
 */
const settled = (exports) =>
  exports.__esModule ? Object.defineProperty({ ...exports }, '__esModule', { value: true }) : exports;

/**
 * Loads a part of `dist` as Node's `require` would, with what the build compiled of it. V8 takes that only from the
 * very version that made it; any other compiles the text, as always. It looks at no more of the text than its length:
 * a part that is changed by hand wants its cache taken away.
 *
 * @param {string} file the path of a part
 */
const load = (file) => {
  const before = loaded.get(file);
  if (before) return before.module.exports;
  // The build writes nothing but ASCII, which need not be decoded.
  const text = readFileSync(file, 'latin1');
  const script = new Script(`(function (exports, require, module, __filename, __dirname) {${text}\n})`, {
    filename: file,
    cachedData: compiledAhead(file),
  });
  const module = { exports: {} };
  loaded.set(file, { module, script });
  const folder = dirname(file);
  const nodeRequire = createRequire(file);
  const requirePart = (name) => (name.startsWith('./') ? load(join(folder, name)) : nodeRequire(name));
  script.runInThisContext()(module.exports, requirePart, module, file, folder);
  module.exports = settled(module.exports);
  return module.exports;
};

module.exports = { load, loaded };
