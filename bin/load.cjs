'use strict';
const { readFileSync } = require('node:fs');
const { createRequire } = require('node:module');
const { dirname, join } = require('node:path');
const { Script } = require('node:vm');

const compiledAhead = (file) => {
  try {
    return readFileSync(`${file}.cache`);
  } catch {
    return undefined;
  }
};

/**
 * Makes a loader of parts of `dist`. It loads a part once, as Node's `require` would, with the code that the build
 * compiled of it. V8 accepts that code only in the version that compiled it; in any other it compiles the text. It
 * compares no more of the text than its length, so delete the `.cache` file of a part that you edit by hand.
 *
 * @returns `load`, which takes the path of a part and returns its exports, and `scripts`, which has the script of each
 * part loaded, by its path
 */
const makeLoader = () => {
  const modules = new Map();
  const scripts = new Map();
  const load = (file) => {
    const before = modules.get(file);
    if (before) return before.exports;
    const text = readFileSync(file, 'utf8');
    const script = new Script(`(function (exports, require, module, __filename, __dirname) {${text}\n})`, {
      filename: file,
      cachedData: compiledAhead(file),
    });
    const module = { exports: {} };
    modules.set(file, module);
    scripts.set(file, script);
    const folder = dirname(file);
    const nodeRequire = createRequire(file);
    const requirePart = (name) => (name.startsWith('./') ? load(join(folder, name)) : nodeRequire(name));
    script.runInThisContext()(module.exports, requirePart, module, file, folder);
    return module.exports;
  };
  return { load, scripts };
};

module.exports = { makeLoader };
