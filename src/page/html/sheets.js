/* Sheets at the bench: the size of the batch, steps to tick, blanks to fill. */

const MOST_SIZES = 8; /* sizes of one formula whose ticks are kept */
const MOST_INDENT = 14; /* widths of a figure that the styles know */

/* ---- showing another size ---- */

/* What stands before the decimal point of the first figure, in widths of a figure (page_html_table.c does the same sum). */
function wholeWidth(text) {
  const [, before, figures] = /^([^0-9]*)([0-9]+)/.exec(text) ?? [];
  return figures === undefined ? 0 : Math.floor(([...before].length * 7 + 5) / 10) + figures.length;
}

/* The cells of a decimal column are indented so that their points stand in line. */
function alignTable(table) {
  const columns = new Map();
  for (const cell of table.querySelectorAll('td.decimal')) {
    const cells = columns.get(cell.cellIndex) ?? [];
    cells.push([cell, wholeWidth(cell.textContent)]);
    columns.set(cell.cellIndex, cells);
  }
  for (const cells of columns.values()) {
    const widest = Math.max(...cells.map(([, width]) => width));
    for (const [cell, width] of cells) {
      cell.className = cell.className.replace(/\bi[0-9]+\b/, `i${Math.min(MOST_INDENT, widest - width)}`);
    }
  }
}

function showScale(sheet, scale) {
  const { article, show, rough } = sheet;
  sheet.scale = scale;
  for (const element of article.querySelectorAll('[data-pieces]')) {
    const pieces = JSON.parse(element.dataset.pieces);
    element.textContent = textOf(pieces, show, scale);
    if (element.classList.contains('error')) {
      const [way, number] = pieces.find((piece) => typeof piece !== 'string');
      element.classList.toggle('strong', show.share(way, number * scale) > rough);
    }
  }
  for (const element of article.querySelectorAll('[data-from]')) {
    const below = element.dataset.below === undefined ? Infinity : Number(element.dataset.below);
    element.hidden = !(scale >= Number(element.dataset.from) && scale < below);
  }
  article.querySelectorAll('table').forEach(alignTable);
}

/* ---- the box for the size ---- */

/* The size written in the box, in the page's own unit; NaN with a reason when it is none. */
function readSize(figure) {
  const text = figure.trim();
  if (/^\d*,\d+$/.test(text)) {
    return [NaN, `“${text}” can be read in two ways. Write ${text.replace(',', '.')} or ${text.replace(',', '')}.`];
  }
  const good = /^(\d+\.?\d*|\.\d+)$/.test(text) && Number(text) > 0 && Number(text) < 1e6;
  return good ? [Number(text), ''] : [NaN, 'Write a size such as 2 or 0.5.'];
}

function keepSize(sheet, own) {
  if (own) {
    delete sheet.state.size;
  } else {
    sheet.state.size = { figure: sheet.box.value, unit: sheet.unit.selectedIndex, scale: sheet.scale, of: sheet.ownScale };
  }
}

function changeSize(sheet, scale) {
  if (scale === sheet.scale) {
    return;
  }
  showScale(sheet, scale);
  keepSize(sheet, scale === sheet.ownScale);
  showMarks(sheet);
  remember(sheet);
}

function say(sheet, text, wrong) {
  sheet.said.textContent = text;
  sheet.box.setAttribute('aria-invalid', String(wrong));
}

function sayAmounts(sheet) {
  const size = sheet.show[sheet.mass ? 'mass' : 'volume'](sheet.makes * sheet.scale);
  const times = sheet.scale === 1 ? 'the formula as written' : `${sheet.show.times(sheet.scale)} × the formula as written`;
  const of = sheet.article.querySelector('.size .of')?.textContent;
  say(sheet, `All amounts are for ${size}${of === undefined ? '' : ` of ${of}`}, ${times}.`, false);
}

function startSize(sheet) {
  const { article } = sheet;
  sheet.box = article.querySelector('.size .amount');
  sheet.unit = article.querySelector('.size .unit');
  sheet.said = article.querySelector('.size .said');
  const take = () => {
    const [figure, reason] = readSize(sheet.box.value);
    if (Number.isNaN(figure)) {
      say(sheet, reason, true);
      return;
    }
    changeSize(sheet, (figure * Number(sheet.unit.value)) / sheet.makes);
    sayAmounts(sheet);
  };
  sheet.box.addEventListener('change', take);
  sheet.box.addEventListener('keydown', (event) => {
    if (event.key === 'Enter') {
      take();
    }
  });
  sheet.unit.addEventListener('change', take);
  article.querySelector('.as-written').addEventListener('click', () => {
    sheet.box.value = withoutZeros((sheet.makes / Number(sheet.unit.value)).toPrecision(6));
    changeSize(sheet, 1);
    sayAmounts(sheet);
  });
  const { size } = sheet.state;
  if (size !== undefined && size.of === sheet.ownScale) {
    sheet.box.value = size.figure;
    sheet.unit.selectedIndex = size.unit;
    showScale(sheet, size.scale);
    sayAmounts(sheet);
  }
}

/* ---- ticks and notes ---- */

/* Ticks belong to a size: what was weighed for one litre is not weighed for two. */
function marksOf(sheet) {
  const name = sheet.makes === undefined ? 'all' : (sheet.makes * sheet.scale).toPrecision(9);
  const { marks } = sheet.state;
  marks[name] ??= { ticks: [], notes: {} };
  const sizes = Object.keys(marks);
  for (const old of sizes.filter((size) => size !== name).slice(0, Math.max(0, sizes.length - MOST_SIZES))) {
    delete marks[old];
  }
  return marks[name];
}

function remember(sheet) {
  const { marks, size } = sheet.state;
  for (const name of Object.keys(marks)) {
    if (marks[name].ticks.length === 0 && Object.keys(marks[name].notes).length === 0) {
      delete marks[name];
    }
  }
  if (size === undefined && Object.keys(marks).length === 0) {
    store.drop(sheet.name);
  } else {
    store.set(sheet.name, JSON.stringify(sheet.state));
  }
}

/* The first step that is not done is the one to do next. */
function showProgress(sheet) {
  const { boxes, count } = sheet;
  const next = boxes.find((box) => !box.checked);
  const begun = boxes.some((box) => box.checked);
  for (const box of boxes) {
    const step = box.closest('tbody, li');
    step.classList.toggle('done', box.checked);
    step.classList.toggle('next', box === next && begun);
    if (box === next && begun) {
      step.setAttribute('aria-current', 'step');
    } else {
      step.removeAttribute('aria-current');
    }
  }
  if (count !== null) {
    const done = boxes.filter((box) => box.checked).length;
    count.textContent = boxes.length === 0 ? '' : done === boxes.length ? 'All done' : `${done} of ${boxes.length} done`;
  }
}

function showMarks(sheet) {
  const { ticks, notes } = marksOf(sheet);
  for (const box of sheet.boxes) {
    box.checked = ticks.includes(box.id.split('-')[1]);
  }
  for (const blank of sheet.blanks) {
    blank.value = notes[blank.id.split('-')[1]] ?? '';
  }
  showProgress(sheet);
  showClear(sheet, false);
}

function takeMarks(sheet) {
  const marks = marksOf(sheet);
  marks.ticks = sheet.boxes.filter((box) => box.checked).map((box) => box.id.split('-')[1]);
  marks.notes = Object.fromEntries(
    sheet.blanks.filter((blank) => blank.value !== '').map((blank) => [blank.id.split('-')[1], blank.value]),
  );
  showProgress(sheet);
  showClear(sheet, false);
  remember(sheet);
}

/* Once cleared, they can be had back until something else is marked. */
function showClear(sheet, cleared) {
  if (sheet.clear === null) {
    return;
  }
  if (!cleared) {
    delete sheet.before;
  }
  sheet.clear.textContent = cleared ? 'Bring them back' : 'Clear ticks and notes';
  const marks = marksOf(sheet);
  sheet.clear.hidden = !cleared && marks.ticks.length === 0 && Object.keys(marks.notes).length === 0;
}

function clearMarks(sheet) {
  const marks = marksOf(sheet);
  if (sheet.before !== undefined) {
    Object.assign(marks, sheet.before);
    showMarks(sheet);
  } else {
    const before = { ticks: marks.ticks, notes: marks.notes };
    Object.assign(marks, { ticks: [], notes: {} });
    showMarks(sheet);
    sheet.before = before;
    showClear(sheet, true);
  }
  remember(sheet);
}

const isObject = (value) => typeof value === 'object' && value !== null && !Array.isArray(value);

/* What was kept of a sheet; whatever is not as this script writes it is passed over. */
function readState(name) {
  const kept = recall(name, {});
  const state = { marks: {} };
  if (!isObject(kept)) {
    return state;
  }
  for (const [size, marks] of Object.entries(isObject(kept.marks) ? kept.marks : {})) {
    if (isObject(marks) && Array.isArray(marks.ticks) && isObject(marks.notes)) {
      state.marks[size] = { ticks: marks.ticks, notes: marks.notes };
    }
  }
  if (isObject(kept.size) && typeof kept.size.figure === 'string' && Number.isFinite(kept.size.scale) && kept.size.scale > 0) {
    state.size = kept.size;
  }
  return state;
}

function startSheet(article) {
  const data = article.dataset;
  const name = `sheet:${data.key}`;
  const state = readState(name);
  const sheet = {
    article,
    name,
    state,
    boxes: [...article.querySelectorAll('input[type=checkbox]')],
    blanks: [...article.querySelectorAll('input.write')],
    count: article.querySelector('.progress .count'),
    clear: article.querySelector('.progress .clear'),
  };
  if (data.makes !== undefined) {
    Object.assign(sheet, {
      makes: Number(data.makes),
      mass: data.mass !== undefined,
      ownScale: Number(data.scale),
      scale: Number(data.scale),
      rough: Number(data.rough),
      show: instruments(data),
    });
    startSize(sheet);
  }
  showMarks(sheet);
  article.addEventListener('input', (event) => {
    if (event.target.matches('input[type=checkbox], input.write')) {
      takeMarks(sheet);
    }
  });
  sheet.clear?.addEventListener('click', () => clearMarks(sheet));
}

document.addEventListener('DOMContentLoaded', () => document.querySelectorAll('article').forEach(startSheet));
