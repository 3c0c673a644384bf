/* The list below the text: what is wrong or doubtful, in the order of the lines, with its repairs as buttons. */

function element(name, words, text) {
  const made = document.createElement(name);
  made.className = words;
  made.textContent = text;
  return made;
}

const counted = (count, one, many) => `${count} ${count === 1 ? one : many}`;

export function summary(errors, warnings) {
  const parts = [errors > 0 && counted(errors, 'mistake', 'mistakes'), warnings > 0 && counted(warnings, 'doubt', 'doubts')].filter(Boolean);
  return parts.length === 0 ? 'No problems found' : parts.join(', ');
}

const MOST = 25; // more are read by nobody, and would hold up typing

export function listProblems(list, diagnostics, editor) {
  const had = list.contains(document.activeElement) ? [...list.children].findIndex((item) => item.contains(document.activeElement)) : -1;
  list.replaceChildren(
    ...diagnostics.slice(0, MOST).map((found) => {
      const item = element('li', found.severity, '');
      const place = element('button', 'place', `line ${found.line}`);
      place.type = 'button';
      place.addEventListener('click', () => editor.goTo(found));
      item.append(element('span', 'what', found.message), ' ', place);
      if (found.help !== null) item.append(element('div', 'help', found.help));
      if (found.fixes.length > 0) {
        const repairs = element('div', 'repairs', '');
        for (const fix of found.fixes) {
          const button = element('button', 'repair', fix.title);
          button.type = 'button';
          button.addEventListener('click', () => editor.repair(fix));
          repairs.append(button);
        }
        item.append(repairs);
      }
      return item;
    }),
    ...(diagnostics.length > MOST ? [element('li', 'more', `and ${diagnostics.length - MOST} more, further down in the text`)] : []),
  );
  /* Whoever repairs by keyboard goes on with the next. */
  if (had >= 0) (list.children[Math.min(had, list.children.length - 1)]?.querySelector('button') ?? list).focus();
}
