/** What the commands do. It is loaded when one is called, so that help and completion of options wait for none of it. */
export { add } from './run-add.ts';
export { check, checkAndWatch } from './run-check.ts';
export { complete } from './run-complete.ts';
export { fill } from './run-fill.ts';
export { fix } from './run-fix.ts';
export { log } from './run-log.ts';
export { makeNew } from './run-new.ts';
export { next } from './run-next.ts';
export { listPacks, showPack } from './run-packs.ts';
export { provePacks } from './run-prove.ts';
export { schemaText } from './run-schema.ts';
export { sweep } from './run-sweep.ts';
export { undo } from './run-undo.ts';
export { upgradePacks } from './run-upgrade.ts';
export { waive } from './run-waive.ts';
