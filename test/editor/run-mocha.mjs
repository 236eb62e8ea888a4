// Runs a bundle of tests by mocha and gives what came of each, as plain data.
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { root } from './places.mjs';

/** The source of a module that does the same inside the editor's extension host. */
export const hostEntry = (tests, report) => `
const { writeFileSync } = require('node:fs');
const Mocha = require(${JSON.stringify(join(root, 'node_modules/mocha/lib/mocha.cjs'))});
exports.run = () => (${runFiles})(Mocha, ${JSON.stringify(tests)}).then((results) => {
  writeFileSync(${JSON.stringify(report)}, JSON.stringify(results));
  if (results.some(({ failure }) => failure !== undefined)) throw new Error('tests failed');
});
`;

/** Resolves to the title of each test, its time in milliseconds, and its failure if it failed. */
export function runTests(tests) {
  const require = createRequire(import.meta.url);
  return runFiles(require(join(root, 'node_modules/mocha/lib/mocha.cjs')), tests);
}

/** Stands alone, since its source is written into the host's entry as well. */
function runFiles(Mocha, file) {
  return new Promise((resolve, reject) => {
    const mocha = new Mocha({
      ui: 'bdd',
      timeout: 90_000,
      reporter: class {},
      bail: process.env.SETWRIGHT_BAIL === '1',
    });
    mocha.addFile(file);
    const results = [];
    try {
      const runner = mocha.run(() => resolve(results));
      const add = (test, error) =>
        results.push({
          title: test.fullTitle(),
          milliseconds: test.duration ?? 0,
          ...(error ? { failure: `${error.stack ?? error}` } : {}),
        });
      runner.on('pass', (test) => add(test));
      runner.on('fail', (test, error) => add(test, error));
      // A test that is not run is one that did not hold.
      runner.on('pending', (test) => add(test, new Error('not run')));
    } catch (error) {
      reject(error);
    }
  });
}
