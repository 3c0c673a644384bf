/* The formulas that the browser keeps, by name, and which one is open; where it keeps nothing, a memory until the page is left. */

const OWN = 'potash:file:';
const OPEN = 'potash:open';

const memory = new Map();
const store = (() => {
  try {
    localStorage.setItem('potash:try', '1');
    localStorage.removeItem('potash:try');
    return localStorage;
  } catch {
    return null;
  }
})();

export const lasts = store !== null;

function set(name, text) {
  memory.set(name, text);
  try {
    store?.setItem(name, text);
    return true;
  } catch {
    return false; // it is full
  }
}

if (store !== null) {
  for (let i = 0; i < store.length; i++) {
    if (store.key(i).startsWith('potash:')) memory.set(store.key(i), store.getItem(store.key(i)));
  }
}

export const view = () => memory.get('potash:view');
export const setView = (name) => set('potash:view', name);

export function names() {
  return [...memory.keys()].filter((key) => key.startsWith(OWN)).map((key) => key.slice(OWN.length)).sort((a, b) => a.localeCompare(b));
}

export const text = (name) => memory.get(OWN + name) ?? null;

/* Whether it will still be there tomorrow. */
export const keep = (name, content) => set(OWN + name, content) && lasts;

export function drop(name) {
  memory.delete(OWN + name);
  store?.removeItem(OWN + name);
}

export const openName = () => memory.get(OPEN) ?? null;
export const setOpenName = (name) => set(OPEN, name);

/* A name that stands for nothing yet: the one wanted, or it with a number; it ends in .bath, and holds no folder. */
export function freeName(wanted) {
  const stem = wanted.replace(/^.*[/\\]/, '').replace(/\.bath$/i, '').trim() || 'formula';
  let name = `${stem}.bath`;
  for (let number = 2; text(name) !== null; number++) name = `${stem}-${number}.bath`;
  return name;
}

/* A name for a text that has a title. */
export function nameOf(content, otherwise) {
  const title = /^\s*(?:formula|shelf|process|variant|stock)\s+"?([^"\n]*)/im.exec(content)?.[1] ?? '';
  return freeName(title.toLowerCase().normalize('NFKD').replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-+|-+$/g, '').slice(0, 60) || otherwise);
}
