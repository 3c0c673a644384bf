/* Texts that want to be markup, script or endless stay texts. */
import { axeSource, equal, htmlOf, made, ok, phone, reload, setSize, withPage, write } from './harness.mjs';
import { readFileSync } from 'node:fs';

async function markupStaysText(page) {
  equal(await page.evaluate(() => window.harm), undefined, 'harm done');
  /* Nothing stands in the page but what the renderer puts there. */
  const strangers = await page.evaluate(() => {
    const known = 'a article body button code dd div dl dt footer h1 h2 h3 h4 header head hr html input label legend li link main meta nav ol option p path script section select span strong style svg table tbody td th thead title tr ul'.split(' ');
    return [...document.querySelectorAll('*')].filter((element) => !known.includes(element.localName)).map((element) => element.outerHTML.slice(0, 80));
  });
  equal(strangers, [], 'elements');
  const handlers = await page.evaluate(() =>
    [...document.querySelectorAll('*')].flatMap((element) => [...element.attributes]).filter((attribute) => /^on|^style$|^src$/.test(attribute.name)).map((attribute) => attribute.name),
  );
  equal(handlers, [], 'attributes');
  equal(await page.evaluate(() => [document.scripts.length, document.styleSheets.length, document.images.length]), [1, 1, 0], 'scripts, styles, images');
  const links = await page.evaluate(() => [...document.querySelectorAll('[href]')].map((link) => link.getAttribute('href')).filter((href) => !href.startsWith('#') && href !== 'data:,'));
  equal(links, [], 'links that lead away');
}

async function everyTextOfAPageIsEscaped() {
  await withPage(made('hostile'), {}, async (page) => {
    await markupStaysText(page);
    const html = await page.content();
    ok(!/[\u202a-\u202e\u2066-\u2069]/.test(html), 'marks that turn the direction of writing');
    for (const where of ['title', 'subtitle', 'source', 'date', 'caution', 'unit', 'of', 'label', 'fact', 'heading', 'before', 'behind', 'item', 'warning', 'blank', 'code', 'name', 'content', 'course', 'stage', 'detail', 'tick', 'column', 'amount', 'cell', 'note', 'remark', 'between', 'entry']) {
      const text = await page.evaluate(() => document.documentElement.textContent);
      ok(text.includes(`${where} <script>window.harm = '${where}'</script>" onmouseover="window.harm=1" ' <img src=x onerror=window.harm=2> </title></style></script> &lt;b&gt; ]]> --> \\" \\u003c`), `${where} is not shown as it was written`);
    }
    /* The same once the script has put texts together anew. */
    await page.locator('.size .amount').fill('2');
    await page.locator('.size .amount').press('Enter');
    await markupStaysText(page);
    ok((await page.locator('p[data-pieces]').textContent()).includes('2\u00a0L'), 'the figure between them');
    equal(await page.evaluate(() => document.documentElement.scrollWidth), phone.width, 'width');
    await page.evaluate(axeSource);
    const found = await page.evaluate(async () => (await window.axe.run(document, { runOnly: ['wcag2a', 'wcag2aa'] })).violations.map((one) => one.id));
    equal(found, [], 'axe-core');
  });
}

async function aHostileFormulaDoesNoHarm() {
  const words = `<script>window.harm=1</script> ' <img src=x onerror=window.harm=2> & שלום مرحبا 日本語`;
  const path = write(
    'hostile.bath',
    `formula "${words}"
    kind developer
    note "${words} ${'long'.repeat(2500)}"
    part </script><script>window.harm=3</script>
    note "${words}"
    water 500 mL
    metol 0.1 g note "${words}"
    do "${words} ${'y'.repeat(3000)}"
    water to make 1 L
    use for "${words}"
        dilute 1+3
        agitate "${words}"
    keeps 3 months in ${'a '.repeat(40)}bottle
`.replace(/ {4}part .*\n/, ''),
  );
  await withPage(htmlOf('sheet', path), {}, async (page) => {
    await markupStaysText(page);
    equal(await page.locator('h1').textContent(), words, 'the title');
    equal(await page.title(), words, 'the title of the document');
    await setSize(page, '2', 'L');
    await page.locator('#p1-t2').check();
    await reload(page);
    await markupStaysText(page);
    equal(await page.evaluate(() => document.documentElement.scrollWidth), phone.width, 'width');
  });
}

/* The policy lets the page's own script run and no other, wherever it came from. */
async function thePolicyStopsOtherScripts() {
  const path = htmlOf('sheet', 'samples/stop-bath.bath');
  const html = readFileSync(path, 'utf8');
  const spoilt = write('spoilt.html', html.replace('</main>', '<script>window.harm = 1</script><p onclick="window.harm = 2" style="color:blue" id="trap">x</p><img src="https://example.invalid/x.png" alt=""></main>'));
  let complained = 0;
  try {
    await withPage(spoilt, {}, async (page) => {
      await page.locator('#trap').click();
      equal(await page.evaluate(() => window.harm), undefined, 'harm done');
      equal(await page.locator('.count').textContent(), '0 of 3 done', 'the page itself');
    });
  } catch (error) {
    complained = (error.message.match(/Content Security Policy/g) ?? []).length;
    if (complained === 0) {
      throw error;
    }
  }
  ok(complained >= 3, `${complained} violations of the policy were noticed`);
}

export const tests = { everyTextOfAPageIsEscaped, aHostileFormulaDoesNoHarm, thePolicyStopsOtherScripts };
