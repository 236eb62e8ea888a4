// Compiles a bundle, runs it once, and keeps what V8 made of it, so that it need not be compiled at
// every start: packages/cli/src/load-bundle.ts takes it from there.
// Usage: node <engine options of the start> keep-code.mjs BUNDLE FILE
import { readFileSync, writeFileSync } from 'node:fs';
import Module, { createRequire } from 'node:module';
import { dirname } from 'node:path';
import { constants, Script } from 'node:vm';

const [bundle, file] = process.argv.slice(2);
const script = new Script(Module.wrap(readFileSync(bundle, 'utf8')), {
  filename: bundle,
  importModuleDynamically: constants?.USE_MAIN_CONTEXT_DEFAULT_LOADER,
});
const made = { exports: {} };
// Run, so that what runs at every start is compiled and kept too.
script.runInThisContext()(made.exports, createRequire(bundle), made, bundle, dirname(bundle));
writeFileSync(file, script.createCachedData());
