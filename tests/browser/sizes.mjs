/* Another size of the batch, chosen in the page, shows what the program gives for it. */
import { readFileSync, readdirSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { equal, htmlOf, ok, potash, sameTexts, setSize, setSizeAtOnce, withPage, write } from './harness.mjs';
import { textsAsWritten, textsOfArticles } from './texts.mjs';

const sizes = [
  ['50', 'mL'],
  ['333', 'mL'],
  ['2', 'L'],
  ['20', 'imperial fl oz'],
  ['1.5', 'US gallon'],
  ['3', 'mL'],
];

/* Published formulas with ranges, drops, minims, solutions of solutions, parts, sums of units, assumed volumes. */
const formulas = [
  ...readdirSync('samples').filter((name) => name.endsWith('.bath') && name !== 'faulty.bath' && /^(formula|stock) /m.test(readFileSync(`samples/${name}`, 'utf8'))).map((name) => `samples/${name}`),
  ...['01', '13', '14', '16', '20', '29', '44', '46'].flatMap((number) =>
    readdirSync('tests/published').filter((name) => name.startsWith(number) && name.endsWith('.bath')).slice(-1).map((name) => `tests/published/${name}`),
  ),
];

const range = `formula "Range and scale"
    kind developer
    water 500 mL
    metol 0.2 g
    sodium sulfite (anhydrous) 50 to 65 g
    potassium bromide 0.25 g
    hydroquinone 0.004 g
    sodium carbonate (anhydrous) 4 to 4.2 kg
    water to make 10 L
`;

const dry = `formula "Dry developer"
    kind developer
    makes 500 g
    metol 10 g
    sodium sulfite (anhydrous) 300 g
    hydroquinone 30 g
    sodium carbonate (anhydrous) 160 g
`;

async function everyTextMatches(page, path, chosen, options) {
  let compared = 0;
  for (const [figure, unit] of chosen) {
    const html = potash('sheet', path, '--make', `${figure} ${unit}`, '--as', 'html', ...options);
    if (html === null) {
      continue; /* stocks by themselves take no size of another kind */
    }
    await setSizeAtOnce(page, figure, unit);
    const wanted = await textsAsWritten(html);
    const found = await page.evaluate(textsOfArticles);
    equal(found.length, wanted.length, `${path}: sheets`);
    wanted.forEach((texts, i) => sameTexts(found[i], texts, `${path} for ${figure} ${unit}`));
    compared++;
  }
  return compared;
}

async function sizesMatchMake() {
  let compared = 0;
  const paths = [...formulas, write('range.bath', range)];
  await withPage(htmlOf('sheet', paths[0]), {}, async (page) => {
    for (const path of paths) {
      await page.goto(pathToFileURL(htmlOf('sheet', path)).href);
      compared += await everyTextMatches(page, path, sizes, []);
    }
  });
  ok(compared >= 100, `only ${compared} sizes were compared`);
}

async function instrumentsCount() {
  const options = ['--balance', '0.1', '--graduate', '5'];
  const path = write('range.bath', range);
  await withPage(htmlOf('sheet', path, ...options), {}, async (page) => {
    equal(await everyTextMatches(page, path, sizes, options), sizes.length, 'sizes compared');
  });
}

async function aDryMixIsWeighed() {
  const path = write('dry.bath', dry);
  await withPage(htmlOf('sheet', path), {}, async (page) => {
    const chosen = [['50', 'g'], ['1', 'kg'], ['2', 'lb'], ['25', 'kg']];
    equal(await everyTextMatches(page, path, chosen, []), chosen.length, 'sizes compared');
    equal(await page.locator('.size option').allTextContents(), ['g', 'kg', 'oz', 'lb'], 'units offered');
  });
}

/* A sheet that was made for a size goes on from there, and back to the formula as it is written. */
async function aSheetForASizeGoesOn() {
  const path = 'samples/print-developer.bath';
  await withPage(htmlOf('sheet', path, '--make', '2 L'), {}, async (page) => {
    equal(await page.locator('.size .amount').inputValue(), '2', 'size at first');
    equal(await everyTextMatches(page, path, [['250', 'mL'], ['2', 'L']], []), 2, 'sizes compared');
    await page.locator('.as-written').click();
    const wanted = await textsAsWritten(potash('sheet', path, '--as', 'html'));
    sameTexts((await page.evaluate(textsOfArticles))[0], wanted[0], 'as written');
    equal(await page.locator('.size .amount').inputValue(), '1', 'size in the box');
  });
}

/* The checked form is not rounded; what is shown is off by half a step at the most. */
async function amountsComeFromTheCheckedForm() {
  const path = 'samples/print-developer.bath';
  const form = JSON.parse(potash('show', path, '--make', '3.7 L', '--as', 'json')).formulas[0];
  const weighed = form.parts[0].additions.filter((addition) => addition.mass_g !== null);
  await withPage(htmlOf('sheet', path), {}, async (page) => {
    await setSize(page, '3.7', 'L');
    const shown = await page.locator('tbody.ordinary:has(td.leading)').evaluateAll((rows) =>
      rows.map((row) => [row.querySelector('.name').textContent, row.querySelector('.leading').textContent]),
    );
    for (const addition of weighed) {
      const row = shown.find(([name]) => name.startsWith(addition.material));
      ok(row !== undefined, `${addition.material} is not shown`);
      ok(row[1].endsWith('\u00a0g') && Math.abs(parseFloat(row[1]) - addition.mass_g) <= 0.005 + 1e-9, `${row} for ${addition.mass_g} g`);
    }
    equal(weighed.length, 5, 'weighed');
  });
}

/* Warnings of a size come and go with it. */
async function warningsFollowTheSize() {
  await withPage(htmlOf('sheet', 'samples/print-developer.bath'), {}, async (page) => {
    const warnings = page.locator('p.warning:visible', { hasText: 'cannot be weighed well' });
    equal(await warnings.count(), 0, 'warnings for 1 L');
    await setSize(page, '50', 'mL');
    equal(await warnings.count(), 2, 'warnings for 50 mL');
    equal(await page.locator('td.error.strong').count(), 2, 'errors that stand out');
    await setSize(page, '1', 'L');
    equal(await warnings.count(), 0, 'warnings for 1 L again');
    equal(await page.locator('td.error.strong').count(), 0, 'errors that stand out');
  });
}

async function whatIsNoSizeIsRefused() {
  await withPage(htmlOf('sheet', 'samples/print-developer.bath'), {}, async (page) => {
    const before = await page.evaluate(textsOfArticles);
    const box = page.locator('.size .amount');
    const said = page.locator('.size .said');
    for (const [text, reason] of [
      ['1,5', 'two ways'],
      ['0', 'such as'],
      ['-2', 'such as'],
      ['two', 'such as'],
      ['', 'such as'],
      ['1e3', 'such as'],
      ['Infinity', 'such as'],
      ['<b>1</b>', 'such as'],
    ]) {
      await box.fill(text);
      await box.press('Enter');
      ok((await said.textContent()).includes(reason), `${text}: ${await said.textContent()}`);
      equal(await box.getAttribute('aria-invalid'), 'true', 'marked as wrong');
      equal(await page.evaluate(textsOfArticles), before, 'amounts');
    }
    await box.fill('.5');
    await box.press('Enter');
    equal(await said.textContent(), 'All amounts are for 500\u00a0mL, 0.5 × the formula as written.', 'what is said');
    equal(await box.getAttribute('aria-invalid'), 'false', 'marked as wrong');
  });
}

/* The shelf is asked for one size only, and the sheet says so on every other. */
async function anotherSizeWasNotAskedOfTheShelf() {
  const path = htmlOf('sheet', 'samples/print-developer.bath', '--using-shelf', '--shelf', 'samples/shelf.bath');
  await withPage(path, {}, async (page) => {
    const said = page.locator('dd:visible', { hasText: 'it was asked for a batch of 1\u00a0L' });
    equal(await said.count(), 0, 'said of the size that was asked for');
    await setSize(page, '3', 'L');
    equal(await said.count(), 1, 'said of a larger one');
    await setSize(page, '1', 'L');
    equal(await said.count(), 0, 'said of the size that was asked for');
  });
}

export const tests = {
  sizesMatchMake,
  instrumentsCount,
  aDryMixIsWeighed,
  aSheetForASizeGoesOn,
  amountsComeFromTheCheckedForm,
  warningsFollowTheSize,
  whatIsNoSizeIsRefused,
  anotherSizeWasNotAskedOfTheShelf,
};
