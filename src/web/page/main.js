/* The page: a formula on one side, its sheet on the other.  All that it knows of formulas is what the program says. */
import open from '../module.mjs';
import { pack, unpack } from './archive.js';
import { makeEditor } from './editor.js';
import * as examples from './examples.js';
import * as kept from './kept.js';
import { makePreview, preparePrinting } from './preview.js';
import { listProblems, summary } from './problems.js';
import { linkOf, textOf } from './share.js';

const $ = (id) => document.getElementById(id);
const on = (id, act) => $(id).addEventListener('click', act);
const SHEET_WAITS = 250; // ms after the last key, so that typing is never held up

let potash = null;
let materials = null;
let name = null;
let view = null;
let waiting = 0;
let day = '';

const red = () => document.documentElement.classList.contains('red');

/* What a screen reader is to say is not said again while it stays the same. */
function put(id, text) {
  if ($(id).textContent !== text) $(id).textContent = text;
}
const say = (text) => put('said', text);

/* ---- what the text is about, and what can be shown of it ---- */

const has = (word) => new RegExp(`^\\s*${word}\\s+"`, 'im').test(editor.text);
const views = [
  { verb: 'sheet', title: 'Sheet', fits: () => !has('shelf') || has('formula') },
  { verb: 'label', title: 'Label', fits: () => has('formula') },
  { verb: 'safety', title: 'Safety', fits: () => has('formula') },
  { verb: 'process', title: 'Process', fits: () => has('process') },
  { verb: 'shelf', title: 'Shelf', fits: () => has('shelf'), all: true },
];

const files = () => Object.fromEntries(kept.names().map((other) => [other, kept.text(other)]));

function run(words) {
  try {
    return potash.run([...words, '--date', day], { files: { ...files(), [name]: editor.text } });
  } catch {
    return { status: 2, stdout: '', stderr: 'The program stopped: this text needs more than it can hold.' };
  }
}

function showViews() {
  const fit = views.filter((one) => one.fits());
  if (!fit.includes(view)) view = fit[0] ?? views[0];
  $('views').replaceChildren(
    ...fit.map((one) => {
      const button = document.createElement('button');
      button.type = 'button';
      button.textContent = one.title;
      button.setAttribute('aria-pressed', String(one === view));
      button.addEventListener('click', () => {
        view = one;
        showViews();
        [...$('views').children].find((other) => other.getAttribute('aria-pressed') === 'true').focus();
        showSheet();
      });
      return button;
    }),
  );
}

/* An older sheet stays, and says that it is one. */
function setStale(text) {
  put('stale', text);
  $('stale').hidden = text === '';
  $('papers').classList.toggle('old', text !== '');
}

function showSheet() {
  const paths = view.all ? kept.names() : [name];
  const made = run([view.verb, ...paths, '--as', 'html']);
  if (made.stdout !== '') {
    setStale('');
    preview.show(made.stdout, `${view.title}: ${name}`, red());
    return;
  }
  const older = preview.frame?.title === `${view.title}: ${name}`;
  if (!older) preview.clear();
  const reason = made.status === 1 ? 'There are mistakes to repair first.' : made.stderr.replace(/^potash: /, '');
  setStale(older ? `This is the last one without mistakes. ${reason}` : reason);
}

/* ---- checking, at every key ---- */

function check() {
  const made = run(['check', name, '--as', 'json']);
  let found = { diagnostics: [], errors: 0, warnings: 0 };
  try {
    found = JSON.parse(made.stdout);
  } catch {
    put('problems-said', made.stderr.replace(/^potash: /, ''));
    return;
  }
  const own = found.diagnostics.filter((one) => one.file === name);
  const others = found.diagnostics.length - own.length;
  editor.mark(own);
  listProblems($('problem-list'), own, editor);
  put('problems-said', summary(found.errors, found.warnings) + (others > 0 ? ` (${others} in other files)` : ''));
  $('side-count').textContent = found.errors > 0 ? String(found.errors) : '';
  $('side-count').title = summary(found.errors, found.warnings);
  performance.mark('first-check'); // the tests look at the first
}

function changed() {
  if (name === null || potash === null) return;
  if (!kept.keep(name, editor.text) && kept.lasts) say('This browser is full: the last change is not kept.');
  check();
  clearTimeout(waiting);
  waiting = setTimeout(() => {
    showViews();
    showSheet();
  }, SHEET_WAITS);
}

function openFile(wanted) {
  name = wanted;
  kept.setOpenName(wanted);
  $('open-name').textContent = wanted.replace(/\.bath$/, '');
  document.title = `${wanted.replace(/\.bath$/, '')} · Potash`;
  editor.open(kept.text(wanted) ?? '');
  $('welcome').hidden = true;
  if (potash === null) return;
  check();
  showViews();
  showSheet();
}

function addFile(wanted, text) {
  kept.keep(wanted, text);
  openFile(wanted);
}

/* ---- a first visit ---- */

function welcome() {
  const note = $('welcome');
  const button = document.createElement('button');
  button.type = 'button';
  button.textContent = 'Try three mistakes';
  button.addEventListener('click', () => {
    openFile(examples.mistakes.name);
    editor.view.focus();
  });
  note.replaceChildren('An example: change anything in it.', button);
  note.hidden = false;
}

/* What a link brought, if one did; the same text is not kept twice. */
async function openShared() {
  const shared = await textOf(location.hash);
  if (shared === null) return false;
  history.replaceState(null, '', location.href.replace(/#.*/, ''));
  const same = kept.names().find((other) => kept.text(other) === shared);
  if (same !== undefined) openFile(same);
  else addFile(kept.nameOf(shared, 'shared'), shared);
  return true;
}

async function begin() {
  const isNew = kept.names().length === 0;
  if (isNew) for (const example of [examples.mistakes, examples.first]) kept.keep(example.name, example.text);
  if (await openShared()) return;
  const last = kept.openName();
  openFile(isNew ? examples.first.name : kept.text(last) !== null ? last : kept.names()[0]);
  if (isNew) welcome();
}

/* ---- the formulas that are kept ---- */

function download(blob, called) {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(blob);
  link.download = called;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
}

function titleOf(text) {
  return /^\s*(?:formula|shelf|process|variant)\s+"([^"\n]*)"/im.exec(text)?.[1] ?? '';
}

function listKept(dropped = null) {
  const items = kept.names().map((other) => {
    const item = document.createElement('li');
    const button = document.createElement('button');
    button.type = 'button';
    button.className = 'open';
    button.setAttribute('aria-current', String(other === name));
    const small = document.createElement('small');
    small.textContent = titleOf(kept.text(other));
    button.append(other.replace(/\.bath$/, ''), small);
    button.addEventListener('click', () => {
      openFile(other);
      $('formulas').close();
    });
    const away = document.createElement('button');
    away.type = 'button';
    away.className = 'away';
    away.textContent = 'Remove';
    away.setAttribute('aria-label', `Remove ${other}`);
    away.addEventListener('click', () => {
      const text = kept.text(other);
      kept.drop(other);
      if (other === name) {
        if (kept.names().length === 0) kept.keep(kept.freeName('formula'), examples.formula);
        openFile(kept.names()[0]);
      }
      listKept([other, text]);
    });
    item.append(button, away);
    return item;
  });
  if (dropped !== null) {
    const back = document.createElement('li');
    const button = document.createElement('button');
    button.type = 'button';
    button.textContent = `Bring ${dropped[0]} back`;
    button.addEventListener('click', () => {
      kept.keep(kept.freeName(dropped[0]), dropped[1]);
      listKept();
    });
    back.append(button);
    items.push(back);
    setTimeout(() => button.focus());
  }
  $('kept').replaceChildren(...items);
}

async function takeIn(list) {
  const failed = [];
  let last = null;
  for (const file of list) {
    try {
      const bytes = new Uint8Array(await file.arrayBuffer());
      const isArchive = bytes[0] === 0x50 && bytes[1] === 0x4b;
      const found = isArchive ? (await unpack(bytes)).filter(([path]) => path.endsWith('.bath')) : [[file.name, new TextDecoder('utf-8', { fatal: true }).decode(bytes)]];
      if (found.length === 0) throw new Error('no formulas are in it');
      for (const [path, text] of found) {
        const called = path.replace(/^.*[/\\]/, '');
        last = kept.text(called) === text ? called : kept.freeName(path);
        kept.keep(last, text);
      }
    } catch (error) {
      failed.push(`${file.name}: ${error instanceof TypeError ? 'it is no text' : error.message}`);
    }
  }
  if (last !== null) openFile(last);
  listKept();
  $('kept-said').textContent = failed.length > 0 ? failed.join('; ') : 'Taken in.';
  if (last !== null && failed.length === 0) $('formulas').close();
}

/* ---- the whole ---- */

function setRed(yes) {
  document.documentElement.classList.toggle('red', yes);
  document.querySelector('meta[name=color-scheme]').content = yes ? 'dark' : 'light dark';
  $('red').setAttribute('aria-pressed', String(yes));
  preview.setRed(yes);
}

const editor = makeEditor($('editor'), document.body.dataset.nonce, changed, () => {
  materials ??= JSON.parse(potash.run(['materials', '--as', 'json']).stdout).materials.map((one) => one.material);
  return materials;
});
const preview = makePreview($('papers'));
preparePrinting(preview);

on('red', () => {
  setRed(!red());
  kept.setView(red() ? 'red' : 'plain');
  if (red()) say('A red screen is no tested safelight: try it with your paper, keep it dim and far away.');
});
on('print', () => preview.print());
on('formulas-open', () => {
  listKept();
  $('kept-said').textContent = kept.lasts ? 'They are kept in this browser, and nowhere else.' : 'This browser keeps nothing: save what you need before you leave.';
  $('formulas').showModal();
});
on('new-formula', () => {
  addFile(kept.freeName('new-formula'), examples.formula);
  $('formulas').close();
});
on('new-shelf', () => {
  addFile(kept.freeName('shelf'), examples.shelf);
  $('formulas').close();
});
on('open-files', () => $('files').click());
$('files').addEventListener('change', async () => {
  await takeIn([...$('files').files]);
  $('files').value = '';
});
on('save-file', () => download(new Blob([editor.text], { type: 'text/plain;charset=utf-8' }), name));
on('save-all', () => download(pack(kept.names().map((other) => [other, kept.text(other)])), 'formulas.zip'));
on('share', async () => {
  const link = await linkOf(editor.text);
  $('link').value = link;
  $('copied').textContent = '';
  $('sharing-said').textContent = location.protocol === 'file:'
    ? 'The formula is in the link itself. This page is a file of yours: whoever gets the link needs the file too, at the same place; or send them the formula, saved as a file.'
    : 'The formula is in the link itself; no server sees it.';
  $('sharing').showModal();
  $('link').select();
});
on('copy-link', async () => {
  $('link').select();
  try {
    await navigator.clipboard.writeText($('link').value);
    $('copied').textContent = 'Copied.';
  } catch {
    $('copied').textContent = document.execCommand('copy') ? 'Copied.' : 'Copy it by hand: it is selected.';
  }
});
for (const button of document.querySelectorAll('dialog .close')) button.addEventListener('click', () => button.closest('dialog').close());
addEventListener('keydown', (event) => {
  if ((event.ctrlKey || event.metaKey) && !event.altKey && event.key.toLowerCase() === 'p' && preview.frame !== null) {
    event.preventDefault();
    preview.print();
  } else if ((event.ctrlKey || event.metaKey) && !event.altKey && event.key.toLowerCase() === 's') {
    event.preventDefault();
    $('save-file').click();
  }
});
addEventListener('hashchange', openShared);
addEventListener('dragover', (event) => event.preventDefault());
addEventListener('drop', (event) => {
  if (event.dataTransfer.files.length === 0) return;
  event.preventDefault();
  takeIn([...event.dataTransfer.files]);
});

/* One side at a time on a phone: by a swipe, or by the two buttons below. */
const sides = [...document.querySelectorAll('#sides button')];
for (const button of sides) {
  button.addEventListener('click', () => $(button.dataset.side).scrollIntoView({ inline: 'start', block: 'nearest', behavior: matchMedia('(prefers-reduced-motion: reduce)').matches ? 'auto' : 'smooth' }));
}
new IntersectionObserver((entries) => {
  for (const entry of entries) {
    if (entry.isIntersecting) for (const button of sides) button.setAttribute('aria-pressed', String(button.dataset.side === entry.target.id));
  }
}, { root: $('panes'), threshold: 0.6 }).observe($('formula'));
new IntersectionObserver(([entry]) => {
  if (entry.isIntersecting && innerWidth <= 960) for (const button of sides) button.setAttribute('aria-pressed', String(button.dataset.side === 'sheet'));
}, { root: $('panes'), threshold: 0.6 }).observe($('sheet'));

const today = new Date();
day = [today.getFullYear(), String(today.getMonth() + 1).padStart(2, '0'), String(today.getDate()).padStart(2, '0')].join('-');
setRed(kept.view() === 'red');

(async () => {
  await begin();
  window.potash = potash = await open();
  const note = $('welcome').hidden;
  openFile(name);
  $('welcome').hidden = note;
  document.documentElement.dataset.ready = 'yes';
})();
