/* Steps ticked off and blanks filled stay through a reload, size by size, and can be cleared. */
import { equal, htmlOf, ok, reload, setSize, withPage, write } from './harness.mjs';

const sample = 'samples/print-developer.bath';
const ticked = (page) => page.locator('input[type=checkbox]').evaluateAll((boxes) => boxes.map((box) => box.checked));
const done = (page) => page.locator('.progress .count').textContent();

async function ticksSurviveAReload() {
  await withPage(htmlOf('sheet', sample), {}, async (page) => {
    equal(await done(page), '0 of 9 done', 'at first');
    await page.locator('label', { hasText: 'water at 45' }).click();
    await page.locator('#p1-t3').check();
    await page.getByLabel('taken: metol').fill('1.52');
    await page.getByLabel('batch no.').fill('PD-014 "<b>');
    const before = await ticked(page);
    equal(before.filter(Boolean).length, 2, 'ticked');
    await reload(page);
    equal(await ticked(page), before, 'after a reload');
    equal(await done(page), '2 of 9 done', 'what is said');
    equal(await page.getByLabel('taken: metol').inputValue(), '1.52', 'taken');
    equal(await page.getByLabel('batch no.').inputValue(), 'PD-014 "<b>', 'batch number');
  });
}

async function theNextStepIsMarked() {
  await withPage(htmlOf('sheet', sample), {}, async (page) => {
    equal(await page.locator('[aria-current=step]').count(), 0, 'before the start');
    await page.locator('#p1-t1').check();
    equal(await page.locator('[aria-current=step]').textContent(), 'a pinch of sodium sulfite, taken from the amount below', 'next');
    for (let i = 2; i <= 9; i++) {
      await page.locator(`#p1-t${i}`).check();
    }
    equal(await page.locator('[aria-current=step]').count(), 0, 'at the end');
    equal(await done(page), 'All done', 'what is said');
  });
}

async function ticksBelongToASize() {
  await withPage(htmlOf('sheet', sample), {}, async (page) => {
    await page.locator('#p1-t1').check();
    await setSize(page, '2', 'L');
    equal((await ticked(page)).some(Boolean), false, 'ticked for 2 L');
    await page.locator('#p1-t2').check();
    await reload(page);
    equal(await page.locator('.size .amount').inputValue(), '2', 'size after a reload');
    equal(await page.locator('td.leading').first().textContent(), '1.5\u00a0L', 'water after a reload');
    equal((await ticked(page)).indexOf(true), 1, 'ticked for 2 L after a reload');
    await setSize(page, '1000', 'mL');
    equal((await ticked(page)).indexOf(true), 0, 'ticked for 1 L');
  });
}

async function clearingCanBeUndone() {
  await withPage(htmlOf('sheet', sample), {}, async (page) => {
    const clear = page.locator('.clear');
    equal(await clear.isVisible(), false, 'nothing to clear');
    await page.locator('#p1-t1').check();
    await page.getByLabel('by', { exact: true }).fill('Ada');
    await clear.click();
    equal((await ticked(page)).some(Boolean), false, 'cleared');
    equal(await page.getByLabel('by', { exact: true }).inputValue(), '', 'blank');
    equal(await clear.textContent(), 'Bring them back', 'the button');
    await clear.click();
    equal((await ticked(page))[0], true, 'brought back');
    equal(await page.getByLabel('by', { exact: true }).inputValue(), 'Ada', 'brought back');
    await clear.click();
    await reload(page);
    equal((await ticked(page)).some(Boolean), false, 'cleared for good');
    equal(await page.evaluate(() => Object.keys(localStorage)), [], 'kept');
  });
}

/* Two formulas of one document keep apart; one that is changed starts anew. */
async function formulasKeepApart() {
  const one = (grams) => `formula "One"\n    kind developer\n    water 500 mL\n    metol ${grams} g\n    water to make 1 L\n`;
  const two = 'formula "Two"\n    kind developer\n    water 500 mL\n    metol 2 g\n    water to make 1 L\n';
  const path = htmlOf('sheet', write('two.bath', one(2) + two));
  await withPage(path, {}, async (page) => {
    await page.locator('#p2-t2').check();
    await reload(page);
    equal((await ticked(page)).indexOf(true), 4, 'ticked');
    await page.goto(`file://${htmlOf('sheet', write('two.bath', one(3) + two))}`);
    equal((await ticked(page)).indexOf(true), 4, 'ticked in the file that was printed anew');
    await page.locator('#p1-t1').check();
    await page.goto(`file://${path}`);
    equal((await ticked(page)).indexOf(true), 4, 'the other formula of that name');
  });
}

/* Where the browser denies its store, all works until the page is left, and the page says so. */
async function withoutAStoreAllWorks() {
  const scripts = [() => Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('denied', 'SecurityError'); } })];
  await withPage(htmlOf('sheet', sample), { scripts }, async (page) => {
    ok(await page.locator('#store-said').isVisible(), 'it is not said');
    await page.locator('#p1-t1').check();
    await setSize(page, '2', 'L');
    equal(await page.locator('td.leading').first().textContent(), '1.5\u00a0L', 'water');
    await setSize(page, '1', 'L');
    equal((await ticked(page))[0], true, 'ticked');
    await page.locator('#red-view').click();
  });
  await withPage(htmlOf('sheet', sample), {}, async (page) => {
    equal(await page.locator('#store-said').isVisible(), false, 'said where there is a store');
  });
}

/* What others have put into the store does not stop the page. */
async function aSpoiltStoreIsPassedOver() {
  const path = htmlOf('sheet', sample);
  const spoil = async (page, text) => {
    const key = await page.locator('article').getAttribute('data-key');
    await page.evaluate(([name, value]) => localStorage.setItem(name, value), [`potash:sheet:${key}`, text]);
    await reload(page);
    equal(await done(page), '0 of 9 done', `with ${text} in the store`);
    equal(await page.locator('td.leading').first().textContent(), '750\u00a0mL', `with ${text} in the store`);
  };
  await withPage(path, {}, async (page) => {
    for (const text of ['{', 'null', '7', '"x"', '[]', '{"marks":null,"size":{"of":1,"scale":"x"}}', '{"marks":{"1000.00000":7}}']) {
      await spoil(page, text);
    }
  });
}

export const tests = {
  ticksSurviveAReload,
  theNextStepIsMarked,
  ticksBelongToASize,
  clearingCanBeUndone,
  formulasKeepApart,
  withoutAStoreAllWorks,
  aSpoiltStoreIsPassedOver,
};
