/* The document is HTML that needs no mending: what a browser makes of it is what was written. */
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { equal, htmlOf, made, ok, withPage, write } from './harness.mjs';

const pages = () => [
  htmlOf('sheet', 'samples/print-developer.bath'),
  htmlOf('sheet', 'samples/two-part-developer.bath', 'samples/film-developer.bath', 'samples/stocks.bath'),
  htmlOf('sheet', 'tests/published/16-uranium-iron-blue-toner.bath', '--make', '20 mL'),
  htmlOf('materials', 'metol'),
  made('blocks'),
  made('course'),
  made('hostile'),
];

/* References of characters resolved, attributes without a value given an empty one, blanks between tags left out. */
function plain(html) {
  return html
    .replace(/^<!DOCTYPE html>/i, '')
    .replace(/<(path [^>]*)\/>/g, '<$1></path>')
    .replace(/ (hidden|selected|data-mass)(?=[ >])/g, ' $1=""')
    .replace(/>\s+</g, '><')
    .replace(/&nbsp;/g, '\u00a0')
    .replace(/&#39;/g, "'")
    .replace(/&quot;/g, '"')
    .replace(/&lt;/g, '<')
    .replace(/&gt;/g, '>')
    .replace(/&amp;/g, '&')
    .trim();
}

async function nothingHasToBeMended() {
  for (const path of pages()) {
    await withPage(path, { context: { javaScriptEnabled: false } }, async (page) => {
      const [found, wanted] = [plain(await page.content()), plain(readFileSync(path, 'utf8'))];
      let i = 0;
      while (i < wanted.length && found[i] === wanted[i]) {
        i++;
      }
      equal(found.slice(Math.max(0, i - 60), i + 60), wanted.slice(Math.max(0, i - 60), i + 60), path);
    });
  }
}

async function namesAreGivenOnce() {
  for (const path of pages()) {
    await withPage(path, {}, async (page) => {
      const wrong = await page.evaluate(() => {
        const ids = [...document.querySelectorAll('[id]')].map((element) => element.id);
        const missing = [];
        for (const [name, list] of [['for', false], ['aria-labelledby', true], ['aria-describedby', true]]) {
          for (const element of document.querySelectorAll(`[${name}]`)) {
            const value = element.getAttribute(name);
            missing.push(...(list ? value.split(' ') : [value]).filter((id) => document.getElementById(id) === null));
          }
        }
        return { twice: ids.filter((id, i) => ids.indexOf(id) !== i), missing };
      });
      equal(wrong, { twice: [], missing: [] }, path);
    });
  }
}

/* A square code read back with a camera's eyes. */
async function squareCodesCanBeRead() {
  await withPage(made('blocks'), {}, async (page) => {
    for (const view of ['plain', 'red']) {
      const picture = await page.locator('svg.square').screenshot();
      const text = execFileSync('zbarimg', ['-q', '--raw', write('square.png', picture)], { encoding: 'utf8' });
      equal(text.trim(), 'PD-014 4f00fa0b', `the ${view} code`);
      await page.locator('#red-view').click();
    }
  });
}

/* The styles and the script are the files that stand in the source, and nothing ends them early. */
async function styleAndScriptAreWhole() {
  const html = readFileSync(pages()[0], 'utf8');
  const source = (names) => names.map((name) => readFileSync(`src/page/html/${name}`, 'utf8')).join('');
  ok(html.includes(`<script>${source(['view.js', 'figures.js', 'sheets.js', 'timers.js'])}</script>`), 'the script');
  ok(html.includes(`<style>${source(['page.css', 'bench.css', 'print.css'])}</style>`), 'the styles');
  ok(!/https?:/.test(html), 'an address of the network');
}

export const tests = { nothingHasToBeMended, namesAreGivenOnce, squareCodesCanBeRead, styleAndScriptAreWhole };
