/* What the browser tests share: one Chromium for all of them, the program under test, looking at pages. */
import { chromium } from 'playwright-core';
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';

export const potashPath = process.env.POTASH ?? 'build/potash';
export const folder = mkdtempSync(join(tmpdir(), 'potash-browser-'));
export const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

let files = 0;

export function write(name, text) {
  const path = join(folder, `${++files}-${name}`);
  writeFileSync(path, text);
  return path;
}

/* The program's output; null when it did not end well. */
export function potash(...words) {
  const day = words[0] === 'materials' ? [] : ['--date', '2026-03-04']; // what a material is has no day
  const run = spawnSync(potashPath, [...words, ...day], { encoding: 'utf8', maxBuffer: 1 << 28 });
  return run.status === 0 ? run.stdout : null;
}

export function htmlOf(...words) {
  const html = potash(...words, '--as', 'html');
  if (html === null) {
    throw new Error(`potash ${words.join(' ')} --as html did not end well`);
  }
  return write('page.html', html);
}

let browser;

export async function start() {
  /* Root has no sandbox to fall back to. */
  const args = process.getuid?.() === 0 ? ['--no-sandbox'] : [];
  browser = await chromium.launch({ executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium', args });
}

export async function stop() {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
}

export const phone = { width: 390, height: 844 };
export const desk = { width: 1280, height: 900 };

/* A browser of its own for a test.  Whatever the page asks for beside itself, and whatever it complains of, is a failure, but what
 * `options.allowed` matches. */
export async function withPage(path, options, look) {
  const context = await browser.newContext({ viewport: phone, reducedMotion: 'reduce', ...options.context });
  const complaints = [];
  try {
    for (const script of options.scripts ?? []) {
      await context.addInitScript(script);
    }
    const page = await context.newPage();
    page.on('request', (request) => {
      if (!/^(file|data|about|blob):/.test(request.url())) {
        complaints.push(`asked for ${request.url()}`);
      }
    });
    page.on('pageerror', (error) => complaints.push(error.message));
    page.on('console', (message) => message.type() === 'error' && !options.allowed?.test(message.text()) && complaints.push(message.text()));
    page.on('dialog', (dialog) => {
      complaints.push(`dialog: ${dialog.message()}`);
      dialog.dismiss();
    });
    if (options.clock !== undefined) {
      await page.clock.install({ time: options.clock });
    }
    await page.goto(pathToFileURL(path).href);
    if (options.clock !== undefined) {
      await page.clock.pauseAt(new Date(options.clock.getTime() + 60000)); /* from here on it stands unless it is moved */
    }
    await look(page, context);
    equal(complaints, [], 'complaints of the browser');
  } finally {
    await context.close();
  }
}

/* The browser's doing, not the page's. */
export class StoreLost extends Error {}

async function keptItems(page) {
  return page.evaluate(() => {
    try {
      return localStorage.length;
    } catch {
      return 0; /* it is denied */
    }
  });
}

/* Reloads.  Chromium under load gives three of a hundred reloaded pages an empty store, though the page before had put something
 * there; then the test has to be run again. */
export async function reload(page) {
  const before = await keptItems(page);
  await page.reload();
  if (before > 0 && (await keptItems(page)) === 0) {
    throw new StoreLost('the browser gave the reloaded page an empty store');
  }
}

/* Changes every size box of the page, as a person does. */
export async function setSize(page, figure, unit) {
  const boxes = page.locator('.size');
  for (let i = 0; i < (await boxes.count()); i++) {
    await boxes.nth(i).locator('select').selectOption({ label: unit });
    await boxes.nth(i).locator('.amount').fill(figure);
    await boxes.nth(i).locator('.amount').press('Enter');
  }
}

/* The same for many sizes one after the other, without the waiting that a person's hand takes. */
export function setSizeAtOnce(page, figure, unit) {
  return page.evaluate(
    ([text, label]) => {
      for (const box of document.querySelectorAll('.size')) {
        const select = box.querySelector('select');
        select.selectedIndex = [...select.options].findIndex((option) => option.label === label);
        box.querySelector('.amount').value = text;
        select.dispatchEvent(new Event('change', { bubbles: true }));
      }
    },
    [figure, unit],
  );
}

export function pdfText(bytes) {
  const path = write('printed.pdf', bytes);
  return execFileSync('pdftotext', ['-layout', path, '-'], { encoding: 'utf8' });
}

/* ---- claims ---- */

export function ok(claim, what) {
  if (!claim) {
    throw new Error(what);
  }
}

export function equal(found, wanted, what) {
  const [a, b] = [JSON.stringify(found), JSON.stringify(wanted)];
  if (a !== b) {
    throw new Error(`${what}:\n  found  ${a}\n  wanted ${b}`);
  }
}

/* Where two lists of texts first part. */
export function sameTexts(found, wanted, what) {
  for (let i = 0; i < Math.max(found.length, wanted.length); i++) {
    if (found[i] !== wanted[i]) {
      throw new Error(`${what}, text ${i}:\n  found  ${JSON.stringify(found.slice(Math.max(0, i - 2), i + 2))}\n  wanted ${JSON.stringify(wanted.slice(Math.max(0, i - 2), i + 2))}`);
    }
  }
}

/* A page that make_pages.c makes. */
export function made(kind) {
  const path = process.env.MAKE_PAGES ?? join(dirname(potashPath), 'make_pages');
  return write(`${kind}.html`, execFileSync(path, [kind], { encoding: 'utf8', maxBuffer: 1 << 28 }));
}
