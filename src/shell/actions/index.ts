/** What the commands do. It is loaded when one is called, so that help and completion of options wait for none of it. */
export { add } from './add.ts';
export { check, checkAndWatch } from './check.ts';
export { complete } from './complete.ts';
export { fill } from './fill.ts';
export { log } from './log.ts';
export { makeNew } from './new.ts';
export { next } from './next.ts';
export { listPacks, provePacks, showPack } from './packs.ts';
export { schemaText } from './schema.ts';
export { sweep } from './sweep.ts';
export { undo } from './undo.ts';
