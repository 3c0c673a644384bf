/* Every text of a sheet, in order, as the browser shows it. */
import { withPage, write } from './harness.mjs';

/* Of each article; runs in the browser. */
export function textsOfArticles() {
  const text = (element) => element.textContent;
  const shown = (element) => element.closest('[hidden]') === null;
  const unless = (element) => [...element.children].filter((child) => !child.classList.contains('unseen'));
  const ofRows = (table) => {
    const texts = [...table.querySelectorAll('thead th')].map((cell) => (cell.querySelector('.unseen') === null ? text(cell) : ''));
    for (const group of table.tBodies) {
      const [row, notes] = group.rows;
      if (group.className.startsWith('between')) {
        texts.push(text(row.querySelector('.name')));
      } else {
        texts.push(...[...row.cells].map(text));
      }
      /* Warnings come before remarks. */
      const said = (kind) => [...(notes?.querySelectorAll(`p.${kind}`) ?? [])].filter(shown).map((note) => text(unless(note)[0]));
      texts.push(...said('warning'), ...said('remark'));
    }
    return texts;
  };
  return [...document.querySelectorAll('article')].map((article) => {
    const texts = [];
    for (const child of article.children) {
      if (child.matches('.live')) {
        continue;
      }
      if (child.matches('dl')) {
        texts.push(...[...child.querySelectorAll('dt, dd')].filter(shown).map(text));
      } else if (child.matches('ul:not(.pictograms), ol')) {
        texts.push(...[...child.children].map(text));
      } else if (child.matches('.table')) {
        texts.push(...ofRows(child.querySelector('table')));
      } else if (child.matches('.box')) {
        texts.push(...unless(child.querySelector('p')).map(text));
      } else if (child.matches('.blanks')) {
        texts.push(...[...child.querySelectorAll('label')].map((label) => text(label.firstChild)));
      } else if (child.matches('footer')) {
        texts.push(text(child.querySelector('.caution-line')));
      } else if (child.matches('h1, h2, h3, h4, p')) {
        texts.push(text(child));
      }
    }
    return texts;
  });
}

/* The same of a page as the program wrote it: no script runs. */
export async function textsAsWritten(html) {
  let texts;
  await withPage(write('written.html', html), { context: { javaScriptEnabled: false } }, async (page) => {
    texts = await page.evaluate(textsOfArticles);
  });
  return texts;
}
