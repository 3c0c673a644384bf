/* module.mjs NATIVE MODULE: the JavaScript module against the native program: every sample and published formula, for several verbs. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';

const native = resolve(process.argv[2]);
const open = (await import(pathToFileURL(resolve(process.argv[3])).href)).default;
const p = await open();
const folder = mkdtempSync(join(tmpdir(), 'potash-module-'));
let calls = 0;
let wrong = 0;

function claim(yes, what) {
  calls++;
  if (!yes) {
    wrong++;
    console.log(`FAIL  ${what}`);
  }
}

const files = {};
for (const from of ['samples', 'tests/published']) {
  for (const name of readdirSync(from).filter((one) => one.endsWith('.bath'))) files[basename(name)] = readFileSync(join(from, name), 'utf8');
}
for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);

function same(...words) {
  const wanted = spawnSync(native, words, { cwd: folder, encoding: 'utf8', input: '', maxBuffer: 1 << 28 });
  const got = p.run(words, { files });
  claim(got.status === wanted.status && got.stdout === wanted.stdout && got.stderr === wanted.stderr, `potash ${words.join(' ')}`);
  claim(Object.keys(got.files).length === 0, `potash ${words.join(' ')} wrote files`);
}

const day = ['--date', '2026-03-10'];
for (const name of Object.keys(files)) {
  for (const words of [['check', name, '--as', 'json'], ['sheet', name, '--as', 'html'], ['sheet', name, '--make', '600 mL', '--as', 'json'], ['label', name, '--as', 'html'], ['safety', name]]) {
    same(...words, ...day);
  }
  same('tidy', name);
}
same('check', '.', '--as', 'json', ...day);
same('shelf', '.', '--as', 'html', ...day);
same('reckon', '1+29 for 300 mL');
same('nonsense');

/* Files that are written come back, and nothing of a call is left for the next. */
const text = 'formula "Brine"\n  water 500 mL\n  metol 1,5 g\n  water to make 1 L\n';
const tidied = p.run(['tidy', '--in-place', 'sub/a.bath'], { files: { 'sub/a.bath': text.replace('1,5', '1.5') } });
claim(tidied.status === 0 && Object.keys(tidied.files).join() === 'sub/a.bath' && tidied.files['sub/a.bath'].includes('metol'), 'tidy --in-place gives the file back');
const written = p.run(['sheet', 'a.bath', '--as', 'html', '-o', 'a.html', '--date', 'none'], { files: { 'a.bath': text.replace('1,5', '1.5') } });
claim(written.status === 0 && written.files['a.html']?.startsWith('<!DOCTYPE html>'), 'a file written with -o comes back');
claim(p.run(['check', 'a.bath']).status === 2, 'a file of the call before is gone');
claim(p.run(['tidy', '-'], { stdin: text.replace('1,5', '1.5') }).stdout.includes('metol'), 'standard input is read');
const found = JSON.parse(p.run(['check', 'a.bath', '--as', 'json'], { files: { 'a.bath': text } }).stdout);
claim(found.errors === 1 && found.diagnostics[0].id === 'decimal-comma' && found.diagnostics[0].line === 3, 'a mistake is found at its line');

rmSync(folder, { recursive: true });
console.log(`${calls} claims, ${wrong} wrong`);
if (wrong === 0) console.log('[  PASSED  ] potash.mjs');
process.exitCode = wrong > 0 ? 1 : 0;
