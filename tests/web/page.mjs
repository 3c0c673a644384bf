/* potash.html, as somebody uses it: opened from disk, on a phone and on a desk. */
import { execFileSync, spawnSync } from 'node:child_process';
import { readFileSync, readdirSync, statSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { axeSource, desk, equal, ok, pdfText, phone, potashPath, reload, withPage, write } from '../browser/harness.mjs';

const file = resolve(dirname(potashPath), 'web/potash.html');
const tablet = { width: 820, height: 1180 };
const wide = { width: 1440, height: 900 };
const example = 'print-developer.bath';

async function ready(page) {
  await page.waitForSelector('html[data-ready=yes]');
}

const paper = (page) => page.frameLocator('#papers iframe:not(.coming)');

/* What the sheet says; a number and its unit are joined by a blank that does not break. */
const paperText = async (page) => (await paper(page).locator('main').innerText()).replaceAll('\u00a0', ' ');

/* The page in a browser of its own, once it can be used.  Where a text is put in the place of another, Chromium's own editing tries to
 * keep the look of the old one by a style, which the policy does not let through. */
function withPotash(viewport, look, options = {}) {
  const allowed = options.allowed ?? /^Applying inline style/;
  return withPage(file, { ...options, allowed, context: { viewport, ...options.context } }, async (page, context) => {
    await ready(page);
    await look(page, context);
  });
}

/* Puts a text in the place of what stands in the editor. */
async function type(page, text) {
  await page.locator('.cm-content').click();
  await page.keyboard.press('Control+A');
  await page.keyboard.insertText(text);
}

const said = (page) => page.locator('#problems-said').textContent();
const textOf = (page) => page.evaluate(() => localStorage.getItem(`potash:file:${localStorage.getItem('potash:open')}`));

/* ---- size and speed ---- */

/* Wall time is what counts; where other work is in the way, the fastest of a few. */
async function fastest(times, measure) {
  let best = Infinity;
  for (let i = 0; i < times; i++) best = Math.min(best, await measure());
  return best;
}

async function itIsSmallEnough() {
  ok(statSync(file).size <= 3.5e6, `the page has ${statSync(file).size} bytes`);
}

async function theFirstDiagnosticIsThereInASecond() {
  const time = await fastest(8, async () => {
    let at = 0;
    await withPotash(desk, async (page) => {
      at = await page.evaluate(() => performance.getEntriesByName('first-check')[0].startTime);
    });
    return at;
  });
  console.log(`             first diagnostic after ${Math.round(time)} ms`);
  ok(time <= 1000, `the first diagnostic comes after ${Math.round(time)} ms`);
}

async function aKeyIsAnsweredAtOnce() {
  const lines = ['formula "Long"', '    kind other', '    water 500 mL'];
  while (lines.length < 198) lines.push(`    potassium bromide ${(lines.length % 7) + 1},5 g`);
  lines.push('    water to make 10 L', '');
  await withPotash(desk, async (page) => {
    await type(page, lines.join('\n'));
    ok(/mistakes/.test(await said(page)), 'the long file has no mistakes');
    await page.keyboard.press('Control+Home');
    await page.keyboard.press('End');
    const time = await fastest(15, async () => {
      await page.evaluate(() => {
        addEventListener('keydown', () => (window.pressedAt = performance.now()), { capture: true, once: true });
        new MutationObserver((_, observer) => {
          window.answeredAfter = performance.now() - window.pressedAt;
          observer.disconnect();
        }).observe(document.getElementById('problem-list'), { childList: true });
        window.answeredAfter = undefined;
      });
      await page.keyboard.press('x');
      await page.waitForFunction(() => window.answeredAfter !== undefined);
      return page.evaluate(() => window.answeredAfter);
    });
    console.log(`             a key is answered after ${Math.round(time)} ms`);
    ok(time <= 50, `a key is answered after ${Math.round(time)} ms`);
  });
}

/* ---- a first visit ---- */

async function aFirstVisitShowsASheetAndThreeMistakes() {
  await withPotash(desk, async (page) => {
    await paper(page).locator('h1').waitFor();
    equal(await paper(page).locator('h1').textContent(), 'Saltmarsh print developer', 'the title of the sheet');
    equal(await said(page), 'No problems found', 'what is said of the example');
    await page.getByRole('button', { name: 'Try three mistakes' }).click();
    equal(await said(page), '3 mistakes', 'what is said of the other');
    equal(await page.locator('.cm-lintRange-error').count(), 3, 'underlined words');
    for (let left = 3; left > 0; left--) {
      await page.locator('#problem-list .repair').first().click();
      equal(await page.locator('#problem-list .error').count(), left - 1, 'mistakes after a repair');
    }
    const text = await textOf(page);
    for (const repaired of ['metol 1.5 g', 'sodium sulfite (anhydrous) 22 g', 'dilute 1+2']) ok(text.includes(repaired), `${repaired} does not stand in\n${text}`);
    await paper(page).getByRole('heading', { name: 'Saltmarsh soft developer' }).waitFor();
  });
}

async function theSheetFollowsTheText() {
  await withPotash(desk, async (page) => {
    await type(page, 'formula "Brine"\n    kind other\n    water 500 mL\n    sodium chloride 7 g\n    water to make 1 L\n');
    await paper(page).getByRole('heading', { name: 'Brine' }).waitFor();
    await paper(page).locator('.size select').selectOption({ label: 'mL' });
    await paper(page).locator('.size .amount').fill('600');
    await paper(page).locator('.size .amount').press('Enter');
    await paper(page).getByText('4.2 g').first().waitFor(); // 7 g in a litre are 4.2 g in 600 mL
    /* The size stays when the text goes on, and a mistake leaves the last sheet where it was, and says so. */
    await page.locator('.cm-content').click();
    await page.keyboard.press('Control+End');
    await page.keyboard.type('    use for film\n dilute 1+1\n');
    await paper(page).getByText('dilute 1+1').first().waitFor();
    ok((await paperText(page)).includes('4.2 g'), 'the size is lost');
    await page.keyboard.type('time 3,5 min\n');
    await page.locator('#stale:visible').waitFor();
    ok((await page.locator('#stale').textContent()).startsWith('This is the last one without mistakes.'), 'an old sheet that does not say so');
  });
}

async function labelAndSafetyAreATouchAway() {
  await withPotash(wide, async (page) => {
    for (const [view, words] of [['Label', 'Saltmarsh print developer'], ['Safety', 'hydroquinone']]) {
      await page.getByRole('button', { name: view, exact: true }).click();
      await page.waitForSelector(`#papers iframe:not(.coming)[title^=${view}]`);
      ok((await paper(page).locator('body').innerText()).includes(words), `${view} does not say ${words}`);
    }
    equal(await page.evaluate(() => window.potash.run(['label', 'a.bath', '--as', 'html'], { files: { 'a.bath': 'formula "x"\n water 1 L\n metol 1 g\n water to make 2 L\n' } }).stdout.includes('class="square"')), true, 'a square code on a label');
  });
}

/* What --make gives natively is what the page's own program gives, for every formula that there is, at some sizes: 200 or more. */
async function itScalesAsTheNativeProgramDoes() {
  const cases = [];
  for (const folder of ['samples', 'tests/published']) {
    for (const name of readdirSync(folder).filter((one) => one.endsWith('.bath') && one !== 'faulty.bath')) {
      for (const size of ['600 mL', '2.5 L', '1 imperial pint', '37 mL']) cases.push({ path: join(folder, name), name, size });
    }
  }
  await withPotash(desk, async (page) => {
    let formulas = 0;
    for (const { path, name, size } of cases) {
      const text = readFileSync(path, 'utf8');
      if (/^\s*read\s/m.test(text)) continue;
      const words = ['sheet', '-', '--make', size, '--as', 'json', '--date', 'none'];
      const native = spawnSync(potashPath, words, { input: text, encoding: 'utf8', maxBuffer: 1 << 28 });
      const own = await page.evaluate(([all, stdin]) => window.potash.run(all, { stdin }), [words, text]);
      ok(own.status === native.status && own.stdout === native.stdout, `${name} for ${size}`);
      formulas += (text.match(/^\s*formula\s/gm) ?? []).length;
    }
    console.log(`             ${formulas} formulas scaled`);
    ok(formulas >= 200, `only ${formulas} formulas`);
  });
}

/* ---- keeping, saving, opening, sharing ---- */

async function whatWasTypedIsThereTomorrow() {
  await withPotash(desk, async (page) => {
    await type(page, 'formula "Kept"\n    water 1 L\n');
    await reload(page);
    await ready(page);
    ok((await textOf(page)).startsWith('formula "Kept"'), 'the text is gone');
    ok((await page.locator('.cm-content').innerText()).includes('"Kept"'), 'the text is not shown');
    equal(await page.locator('#welcome').isVisible(), false, 'the welcome on a second visit');
  });
}

async function filesGoOutAndComeIn() {
  await withPotash(desk, async (page) => {
    const bytesOf = async (button) => {
      const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: button }).click()]);
      return { name: download.suggestedFilename(), path: await download.path() };
    };
    await page.locator('#formulas-open').click();
    const one = await bytesOf('Save this one');
    equal([one.name, readFileSync(one.path, 'utf8')], [example, await textOf(page)], 'a saved file');
    const all = await bytesOf('Save all in one archive');
    const listed = execFileSync('python3', ['-c', 'import sys, zipfile\nz = zipfile.ZipFile(sys.argv[1])\nassert z.testzip() is None\nprint("\\n".join(z.namelist()), end="")', all.path], { encoding: 'utf8' });
    equal(listed.split('\n'), [example, 'three-mistakes.bath'], 'what another program finds in the archive');
    /* An archive of another program, compressed, and a plain file; a file that is no text. */
    const zip = write('other.zip', '');
    execFileSync('python3', ['-c', 'import sys, zipfile\nwith zipfile.ZipFile(sys.argv[1], "w", zipfile.ZIP_DEFLATED) as z:\n    z.writestr("sub/stop.bath", open("samples/stop-bath.bath", encoding="utf-8").read())\n    z.writestr("readme.txt", "none")', zip]);
    await page.locator('#files').setInputFiles([zip]);
    await page.waitForFunction(() => localStorage.getItem('potash:open') === 'stop.bath');
    equal(await textOf(page), readFileSync('samples/stop-bath.bath', 'utf8'), 'a file out of an archive');
    await page.locator('#formulas-open').click();
    await page.locator('#files').setInputFiles([{ name: 'a.bath', mimeType: 'text/plain', buffer: Buffer.from([0xff, 0xfe, 0x41]) }]);
    await page.getByText('a.bath: it is no text').waitFor();
    /* Removed, and brought back. */
    await page.getByRole('button', { name: 'Remove stop.bath' }).click();
    equal(await page.evaluate(() => localStorage.getItem('potash:file:stop.bath')), null, 'a removed file');
    await page.getByRole('button', { name: 'Bring stop.bath back' }).click();
    equal(await page.evaluate(() => localStorage.getItem('potash:file:stop.bath')), readFileSync('samples/stop-bath.bath', 'utf8'), 'a file that was brought back');
  });
}

async function aLinkHoldsTheFormula() {
  const text = 'formula "Göran’s ½ brine"\n    water 1 L at 20 °C\n    sodium chloride 7 g\n';
  let link = '';
  await withPotash(desk, async (page) => {
    await type(page, text);
    await page.locator('#share').click();
    link = await page.locator('#link').inputValue();
  });
  ok(/#formula=[\w-]+$/.test(link), `no link: ${link}`);
  await withPotash(phone, async (page) => {
    await page.goto('about:blank');
    await page.goto(link);
    await ready(page);
    equal(await textOf(page), text, 'the text that the link holds');
    ok(!page.url().includes('#'), 'the address still holds it');
  });
  await withPotash(desk, async (page) => {
    await page.goto('about:blank');
    await page.goto(link.replace(/=.*/, '=nonsense'));
    await ready(page);
    equal(await page.locator('#open-name').textContent(), 'print-developer', 'what a link that holds nothing opens');
  });
}

async function aShelfIsKeptToo() {
  await withPotash(desk, async (page) => {
    await page.locator('#formulas-open').click();
    await page.getByRole('button', { name: 'New shelf' }).click();
    equal(await said(page), 'No problems found', 'a new shelf');
    await page.waitForSelector('#papers iframe:not(.coming)[title^=Shelf]');
    ok((await paperText(page)).includes('sodium sulfite'), 'the shelf is not shown');
  });
}

/* ---- without a network, by keyboard, by ear, in red, on paper ---- */

/* Every request but that of the file itself is a complaint of withPage; here there is no network at all. */
async function itWorksOffline() {
  await withPotash(phone, async (page, context) => {
    await context.setOffline(true);
    await reload(page);
    await ready(page);
    await page.getByRole('button', { name: 'Sheet', exact: true }).last().click();
    await paper(page).locator('h1').waitFor();
    ok(/default-src 'none'/.test(await page.locator('meta[http-equiv]').getAttribute('content')), 'no policy');
    const fetched = await page.evaluate(() => fetch('data:,x').then(() => true, () => false));
    equal(fetched, false, 'the policy lets something be fetched');
  }, { allowed: /Content Security Policy|Fetch API cannot load/ });
}

async function aPhoneHasOneSideAtATime() {
  for (const viewport of [phone, { width: 320, height: 568 }, tablet, wide]) {
    await withPotash(viewport, async (page) => {
      const width = await page.evaluate(() => document.documentElement.scrollWidth);
      ok(width <= viewport.width, `${width} px wide at ${viewport.width}`);
      if (viewport.width > 960) return;
      const side = page.locator('#sides button[data-side=sheet]');
      await side.click();
      await page.waitForFunction(() => document.querySelector('#sides button[data-side=sheet]').getAttribute('aria-pressed') === 'true');
      const box = await page.locator('#sheet').boundingBox();
      ok(Math.abs(box.x) < 2 && Math.abs(box.width - viewport.width) < 2, `the sheet stands at ${box.x}, ${box.width} wide`);
      await paper(page).locator('h1').waitFor();
    });
  }
}

async function axe(page, what) {
  await page.evaluate(axeSource);
  const found = await page.evaluate(async () => {
    const result = await window.axe.run(document, { resultTypes: ['violations'] });
    return result.violations.map((one) => `${one.id}: ${one.nodes.map((node) => node.html).join(' ')}`);
  });
  equal(found, [], `axe-core: ${what}`);
}

async function axeFindsNothing() {
  for (const [viewport, colorScheme] of [[phone, 'light'], [wide, 'light'], [wide, 'dark']]) {
    await withPotash(viewport, async (page) => {
      const where = `${viewport.width} px, ${colorScheme}`;
      await paper(page).locator('h1').waitFor();
      await axe(page, `${where}, a first visit`);
      await page.getByRole('button', { name: 'Try three mistakes' }).click();
      await axe(page, `${where}, mistakes`);
      await page.locator('#formulas-open').click();
      await axe(page, `${where}, the list`);
      await page.keyboard.press('Escape');
      await page.locator('#share').click();
      await axe(page, `${where}, sharing`);
      await page.keyboard.press('Escape');
      await page.locator('#red').click();
      await axe(page, `${where}, red`);
    }, { context: { colorScheme } });
  }
}

async function itGoesByKeyboard() {
  await withPotash(desk, async (page) => {
    await page.locator('#formulas-open').focus();
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: /^three-mistakes/ }).focus();
    await page.keyboard.press('Enter');
    equal(await said(page), '3 mistakes', 'the file that was opened by keyboard');
    equal(await page.evaluate(() => document.activeElement.id), 'formulas-open', 'the focus after a dialog');
    await page.locator('.cm-content').focus();
    await page.keyboard.press('F8');
    await page.keyboard.press('Tab'); // out of the text: Tab is never caught
    ok(await page.evaluate(() => !document.activeElement.closest('.cm-content')), 'the text keeps the focus');
    await page.locator('#problem-list .repair').first().focus();
    await page.keyboard.press('Enter');
    equal(await said(page), '2 mistakes', 'after a repair by keyboard');
    ok(await page.evaluate(() => document.activeElement.closest('#problem-list') !== null), 'the focus has left the list');
  });
}

async function redIsRedAlone() {
  await withPotash(wide, async (page) => {
    await page.locator('#red').click();
    await page.getByRole('button', { name: 'Try three mistakes' }).click();
    await page.locator('#formulas-open').click();
    await page.getByRole('button', { name: /^print-developer/ }).click();
    await paper(page).locator('h1').waitFor();
    await reload(page);
    await ready(page);
    await paper(page).locator('h1').waitFor();
    await page.waitForFunction(() => document.querySelector('#papers iframe:not(.coming)').contentDocument.documentElement.classList.contains('red'));
    const picture = (await page.screenshot()).toString('base64');
    const blank = await page.context().newPage();
    const pixels = await blank.evaluate(async (data) => {
      const bitmap = await createImageBitmap(await (await fetch(`data:image/png;base64,${data}`)).blob());
      const canvas = new OffscreenCanvas(bitmap.width, bitmap.height);
      const context = canvas.getContext('2d');
      context.drawImage(bitmap, 0, 0);
      const { data: bytes } = context.getImageData(0, 0, bitmap.width, bitmap.height);
      let other = 0;
      let red = 0;
      for (let i = 0; i < bytes.length; i += 4) {
        other += bytes[i + 1] > 0 || bytes[i + 2] > 0;
        red += bytes[i] > 128;
      }
      return { other, red };
    }, picture);
    await blank.close();
    equal(pixels.other, 0, 'pixels with green or blue');
    ok(pixels.red > 1000, 'hardly a pixel is red');
  });
}

/* The browser's own printing gives the sheet and nothing else. */
async function paperHasTheSheetAlone() {
  await withPotash(desk, async (page) => {
    await paper(page).locator('h1').waitFor();
    const text = pdfText(await page.pdf({ format: 'A4' }));
    ok(text.includes('Saltmarsh print developer') && text.includes('hydroquinone'), 'the sheet is not on paper');
    ok(!text.includes('Red view') && !text.includes('No problems found'), 'more than the sheet is on paper');
    ok(text.includes('Check the supplier'), 'the end of the sheet is cut off');
  });
}

export const tests = {
  itIsSmallEnough,
  theFirstDiagnosticIsThereInASecond,
  aKeyIsAnsweredAtOnce,
  aFirstVisitShowsASheetAndThreeMistakes,
  theSheetFollowsTheText,
  labelAndSafetyAreATouchAway,
  itScalesAsTheNativeProgramDoes,
  whatWasTypedIsThereTomorrow,
  filesGoOutAndComeIn,
  aLinkHoldsTheFormula,
  aShelfIsKeptToo,
  itWorksOffline,
  aPhoneHasOneSideAtATime,
  axeFindsNothing,
  itGoesByKeyboard,
  redIsRedAlone,
  paperHasTheSheetAlone,
};
