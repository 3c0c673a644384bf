/* Runs the browser tests from the top of the repository and counts them as the other test programs do. */
import { start, stop, StoreLost } from './harness.mjs';

const groups = process.argv.length > 2 ? process.argv.slice(2) : ['sizes', 'ticks', 'timers', 'views', 'markup', 'hostile'];
const tests = [];
for (const group of groups) {
  tests.push(...Object.entries((await import(`./${group}.mjs`)).tests));
}

const MOST_TRIES = 4;

/* Once more when the browser has lost what the page kept; a page that loses it itself does so every time. */
async function run(test) {
  for (let tries = 1; ; tries++) {
    try {
      return await test();
    } catch (error) {
      if (!(error instanceof StoreLost) || tries === MOST_TRIES) {
        throw error;
      }
    }
  }
}

let failed = 0;
await start();
try {
  for (const [name, test] of tests) {
    const begin = performance.now();
    try {
      await run(test);
      console.log(`[       OK ] ${name} (${Math.round(performance.now() - begin)} ms)`);
    } catch (error) {
      failed++;
      console.log(`[  FAILED  ] ${name}\n${error.stack}`);
    }
  }
} finally {
  await stop();
}
console.log(`[  PASSED  ] ${tests.length - failed} test(s).`);
if (failed > 0) {
  console.log(`[  FAILED  ] ${failed} test(s).`);
}
process.exitCode = failed > 0 ? 1 : 0;
