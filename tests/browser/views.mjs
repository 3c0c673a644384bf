/* The page as it is seen: on a phone, in red, on paper, without scripts, by keyboard, by a screen reader. */
import { axeSource, desk, equal, htmlOf, made, ok, pdfText, phone, potash, reload, sameTexts, setSize, withPage, write } from './harness.mjs';
import { textsAsWritten, textsOfArticles } from './texts.mjs';

const sample = 'samples/print-developer.bath';
const tablet = { width: 810, height: 1080 };

/* Everything that could be too wide: parts, ranges, old units, warnings, long names. */
const pages = () => [
  htmlOf('sheet', sample),
  htmlOf('sheet', 'samples/two-part-developer.bath'),
  htmlOf('sheet', 'samples/stop-bath.bath', 'samples/acid-fixer.bath', 'samples/film-developer.bath'),
  htmlOf('materials', 'metol'),
  made('blocks'),
  made('course'),
];

async function nothingIsWiderThanTheScreen() {
  for (const path of pages()) {
    await withPage(path, {}, async (page) => {
      for (const viewport of [phone, tablet, { width: 1024, height: 768 }, desk, { width: 320, height: 568 }]) {
        await page.setViewportSize(viewport);
        const width = await page.evaluate(() => document.documentElement.scrollWidth);
        ok(width <= viewport.width, `${path} is ${width} px wide at ${viewport.width}`);
      }
    });
  }
}

/* What a thumb has to hit is large enough (WCAG 2.1, 2.5.8: 24 px). */
async function controlsAreLargeEnough() {
  await withPage(htmlOf('sheet', sample), {}, async (page) => {
    const small = await page.locator('button:visible, select:visible, input[type=checkbox]:visible, .size input').evaluateAll((elements) =>
      elements.filter((element) => Math.min(element.offsetWidth, element.offsetHeight) < 32).map((element) => element.outerHTML),
    );
    equal(small, [], 'too small');
  });
}

async function axe(page, what) {
  if (await page.evaluate(() => window.axe === undefined)) {
    await page.evaluate(axeSource);
  }
  const found = await page.evaluate(async () => {
    const result = await window.axe.run(document, { resultTypes: ['violations'] });
    return result.violations.map((one) => `${one.id}: ${one.nodes.map((node) => node.html).join(' ')}`);
  });
  equal(found, [], `axe-core: ${what}`);
}

async function axeFindsNothing() {
  for (const [i, path] of pages().entries()) {
    await withPage(path, {}, async (page) => {
      await axe(page, path);
      await page.locator('#red-view').click();
      await page.setViewportSize(desk);
      await axe(page, `${path}, red, on a desk`);
      if (i === 0) {
        await page.setViewportSize(phone);
        await axe(page, `${path}, red, on a phone`);
        await page.locator('#red-view').click();
        await page.emulateMedia({ colorScheme: 'dark' });
        await axe(page, `${path}, dark`);
      }
    });
  }
  await withPage(htmlOf('sheet', sample), {}, async (page) => {
    await page.locator('#p1-t1').check();
    await setSize(page, '50', 'mL');
    await page.locator('#p1-t1').check();
    await page.locator('.size .amount').fill('x');
    await page.locator('.size .amount').press('Enter');
    await axe(page, 'ticked, warned of, with a size that is none');
  });
}

/* In the red view no pixel sends out green or blue, on any width, whatever has been touched. */
async function redIsRedAlone() {
  const otherLight = async (page, what) => {
    const picture = (await page.screenshot({ fullPage: true })).toString('base64');
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
    equal(pixels.other, 0, `pixels with green or blue: ${what}`);
    ok(pixels.red > 1000, `hardly a pixel is red: ${what}`);
  };
  for (const path of [htmlOf('sheet', sample), made('blocks'), made('course')]) {
    await withPage(path, {}, async (page) => {
      await page.locator('#red-view').click();
      await reload(page);
      await otherLight(page, `${path} after a reload`);
      for (const box of await page.locator('input[type=checkbox]').all()) {
        await box.check();
      }
      await page.setViewportSize(desk);
      await otherLight(page, `${path} on a desk`);
    });
  }
}

/* The view is known before the first element of the body is there. */
async function redIsThereBeforeAnythingIsPainted() {
  const scripts = [
    () => {
      new MutationObserver(() => {
        if (document.body !== null && window.atFirst === undefined) {
          window.atFirst = getComputedStyle(document.documentElement).backgroundColor;
        }
      }).observe(document, { childList: true, subtree: true });
    },
  ];
  await withPage(htmlOf('sheet', sample), { scripts }, async (page) => {
    equal(await page.locator('#red-said').isVisible(), false, 'the caution, at first');
    await page.locator('#red-view').click();
    equal(await page.locator('#red-view').getAttribute('aria-pressed'), 'true', 'the button');
    ok(await page.locator('#red-said').isVisible(), 'no caution about red screens');
    await reload(page);
    equal(await page.evaluate(() => window.atFirst), 'rgb(0, 0, 0)', 'the first background');
    await page.locator('#red-view').click();
    await reload(page);
    ok((await page.evaluate(() => window.atFirst)) !== 'rgb(0, 0, 0)', 'it stays red');
  });
}

async function withoutScriptsItIsAPlainSheet() {
  const context = { javaScriptEnabled: false };
  await withPage(htmlOf('sheet', sample, '--make', '2 L'), { context }, async (page) => {
    equal(await page.locator('button:visible, select:visible').count(), 0, 'controls');
    equal(await page.locator('input[type=checkbox]:visible').count(), 9, 'boxes');
    equal(await page.locator('td.leading').first().textContent(), '1.5\u00a0L', 'water');
    equal(await page.locator('p.warning:visible').count(), 0, 'warnings of other sizes');
  });
  await withPage(made('course'), { context }, async (page) => {
    equal(await page.locator('.timer:visible').count(), 0, 'timers');
    equal(await page.locator('.stages td').first().textContent(), '0:00', 'stages');
  });
}

/* What the program writes is what the script would show. */
async function theScriptChangesNothingByItself() {
  for (const path of [sample, 'samples/two-part-developer.bath', 'tests/published/16-uranium-iron-blue-toner.bath']) {
    for (const size of [[], ['--make', '30 mL'], ['--make', '7 L']]) {
      const wanted = await textsAsWritten(potash('sheet', path, ...size, '--as', 'html'));
      await withPage(htmlOf('sheet', path, ...size), {}, async (page) => {
        sameTexts((await page.evaluate(textsOfArticles)).flat(), wanted.flat(), `${path} ${size}`);
      });
    }
  }
}

async function paperHasAllAndNoControls() {
  await withPage(htmlOf('sheet', sample), {}, async (page) => {
    await page.locator('#red-view').click();
    await setSize(page, '2', 'L');
    const text = pdfText(await page.pdf({ format: 'A4' }));
    for (const words of ['Saltmarsh print developer', 'add in this order', '1.5 L', '60 g', 'to 2 L', 'to the', '500 mL', 'batch no.', 'Take care', 'Check the supplier']) {
      ok(text.includes(words), `no "${words}" on paper`);
    }
    for (const words of ['Red view', 'As written', 'Clear', 'of 9 done', 'safelight: try', 'All amounts are']) {
      ok(!text.includes(words), `"${words}" on paper`);
    }
    await page.emulateMedia({ media: 'print' });
    equal(await page.evaluate(() => [getComputedStyle(document.documentElement).backgroundColor, getComputedStyle(document.body).color]), ['rgb(255, 255, 255)', 'rgb(0, 0, 0)'], 'colours on paper');
  });
}

/* A sheet that runs over has its headings again, on either paper, and no row is torn apart. */
async function headingsAreRepeatedOnPaper() {
  const lines = Array.from({ length: 70 }, (_, i) => `    do "working step number ${i + 1} of many"\n    metol ${i + 1} g`).join('\n');
  const path = htmlOf('sheet', write('long.bath', `formula "Long"\n    kind developer\n    water 500 mL\n${lines}\n    water to make 10 L\n`));
  await withPage(path, {}, async (page) => {
    for (const format of ['A4', 'Letter']) {
      const sheets = pdfText(await page.pdf({ format })).split('\f').filter((sheet) => /working step number/.test(sheet));
      ok(sheets.length > 2, `${format}: ${sheets.length} sheets`);
      for (const sheet of sheets) {
        ok(/add in this order/.test(sheet), `${format}: a sheet without headings`);
      }
      ok(/2 ?\/ ?\d/.test(sheets[1]), `${format}: no page numbers`);
    }
  });
}

async function sheetsOfAFolderStartOnTheirOwn() {
  await withPage(htmlOf('sheet', 'samples/stop-bath.bath', 'samples/acid-fixer.bath'), { context: { viewport: desk } }, async (page) => {
    const titles = await page.locator('article > :first-child').allTextContents();
    equal(await page.locator('nav a').allTextContents(), titles, 'contents');
    equal(titles.length, 2, 'sheets');
    await page.locator('nav a').last().click();
    ok(page.url().endsWith('#p2'), page.url());
    ok(await page.evaluate(() => Math.abs(document.getElementById('p2').getBoundingClientRect().top) < innerHeight / 2), 'the sheet is not in view');
    const sheets = pdfText(await page.pdf({ format: 'A4' })).split('\f');
    for (const title of titles) {
      ok(sheets.some((sheet) => sheet.trim().startsWith(title)), `${title} does not start a sheet`);
    }
  });
}

/* From the first control to the last step without a mouse, with the focus in sight. */
async function theKeyboardIsEnough() {
  await withPage(htmlOf('sheet', sample), { context: { viewport: desk } }, async (page) => {
    const focused = () => page.evaluate(() => document.activeElement.id || document.activeElement.className);
    const tabTo = async (id) => {
      for (let i = 0; i < 60; i++) {
        await page.keyboard.press('Tab');
        const outline = await page.evaluate(() => getComputedStyle(document.activeElement).outlineWidth);
        ok(parseFloat(outline) >= 2, `${await focused()} has no visible focus`);
        if ((await focused()) === id) {
          return;
        }
      }
      throw new Error(`${id} is not reached`);
    };
    await tabTo('red-view');
    await page.keyboard.press('Space');
    equal(await page.locator('#red-view').getAttribute('aria-pressed'), 'true', 'red view');
    await tabTo('p1-size');
    await page.keyboard.press('ControlOrMeta+a');
    await page.keyboard.type('500');
    await page.keyboard.press('Tab');
    await page.keyboard.press('ArrowUp');
    equal(await page.locator('td.leading').first().textContent(), '375\u00a0mL', 'water');
    await tabTo('p1-t1');
    await page.keyboard.press('Space');
    equal(await page.locator('#p1-t1').isChecked(), true, 'ticked');
    await tabTo('p1-t9');
    await page.keyboard.press('Space');
    equal(await page.locator('.count').textContent(), '2 of 9 done', 'what is said');
  });
}

/* What a screen reader gets: the tree of accessible names. */
async function itReadsWell() {
  await withPage(htmlOf('sheet', sample), {}, async (page) => {
    for (const [role, name] of [
      ['checkbox', 'metol 1.5\u00a0g'],
      ['checkbox', 'cool to 24 °C'],
      ['textbox', 'lot: hydroquinone'],
      ['textbox', 'Make'],
      ['combobox', 'Unit'],
      ['columnheader', 'amount'],
      ['rowheader', 'potassium bromide'],
      ['heading', 'Saltmarsh print developer'],
      ['article', 'Saltmarsh print developer'],
      ['group', 'Size of the batch'],
    ]) {
      const found = await page.getByRole(role, { name, exact: true, includeHidden: false }).count();
      equal(found, 1, `${role} "${name}"`);
    }
    /* A card on a phone is a row of a table still. */
    equal(await page.getByRole('table').count(), 3, 'tables');
    await setSize(page, '50', 'mL');
    const described = await page.getByRole('checkbox', { name: /^metol/ }).evaluate((box) => document.getElementById(box.getAttribute('aria-describedby'))?.innerText);
    ok(/Warning:.*cannot be weighed well/s.test(described ?? ''), 'the warning does not belong to its box');
  });
}

export const tests = {
  nothingIsWiderThanTheScreen,
  controlsAreLargeEnough,
  axeFindsNothing,
  redIsRedAlone,
  redIsThereBeforeAnythingIsPainted,
  withoutScriptsItIsAPlainSheet,
  theScriptChangesNothingByItself,
  paperHasAllAndNoControls,
  headingsAreRepeatedOnPaper,
  sheetsOfAFolderStartOnTheirOwn,
  theKeyboardIsEnough,
  itReadsWell,
};
