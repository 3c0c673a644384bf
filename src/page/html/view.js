/* What must be known before anything is painted: that there are scripts, and which view was chosen; and where the page keeps
 * what it has to remember. */
'use strict';

const root = document.documentElement;
root.classList.add('scripted');

/* The browser's store for this place; where it is denied, a memory that lasts until the page is left. */
const store = (() => {
  const own = 'potash:';
  const memory = new Map();
  try {
    const kept = window.localStorage;
    kept.setItem(own + 'try', '1');
    kept.removeItem(own + 'try');
    return {
      lasts: true,
      get: (name) => kept.getItem(own + name),
      set: (name, text) => {
        try {
          kept.setItem(own + name, text);
        } catch {
          memory.set(name, text); /* the store is full */
        }
      },
      drop: (name) => kept.removeItem(own + name),
    };
  } catch {
    return {
      lasts: false,
      get: (name) => memory.get(name) ?? null,
      set: (name, text) => memory.set(name, text),
      drop: (name) => memory.delete(name),
    };
  }
})();

/* Something kept as JSON; `otherwise` when it is not there or cannot be read. */
function recall(name, otherwise) {
  try {
    return JSON.parse(store.get(name)) ?? otherwise;
  } catch {
    return otherwise;
  }
}

function setRedView(red) {
  root.classList.toggle('red', red);
  document.querySelector('meta[name=color-scheme]').content = red ? 'dark' : 'light dark';
}

setRedView(store.get('view') === 'red');

/* The screen is kept on while anybody wants it: the switch at the head of the page, a timer that runs. */
const awake = {
  wanted: new Set(),
  lock: null,
  async update() {
    if (!('wakeLock' in navigator) || document.visibilityState !== 'visible') {
      return;
    }
    try {
      if (this.wanted.size > 0 && (this.lock === null || this.lock.released)) {
        this.lock = await navigator.wakeLock.request('screen');
      } else if (this.wanted.size === 0 && this.lock !== null) {
        await this.lock.release();
        this.lock = null;
      }
    } catch {
      this.lock = null; /* the battery is low, or it is not allowed here */
    }
  },
  want(who, yes) {
    if (yes) {
      this.wanted.add(who);
    } else {
      this.wanted.delete(who);
    }
    this.update();
  },
};
document.addEventListener('visibilitychange', () => awake.update()); /* a hidden page loses the lock */

function pressed(button, yes) {
  button.setAttribute('aria-pressed', String(yes));
}

document.addEventListener('DOMContentLoaded', () => {
  const red = document.getElementById('red-view');
  const redSaid = document.getElementById('red-said');
  const showRed = (yes) => {
    setRedView(yes);
    pressed(red, yes);
    redSaid.hidden = !yes;
  };
  showRed(root.classList.contains('red'));
  red.addEventListener('click', () => {
    const yes = !root.classList.contains('red');
    showRed(yes);
    store.set('view', yes ? 'red' : 'plain');
  });
  const stay = document.getElementById('stay-awake');
  stay.hidden = !('wakeLock' in navigator);
  stay.addEventListener('click', () => {
    const yes = stay.getAttribute('aria-pressed') !== 'true';
    pressed(stay, yes);
    awake.want(stay, yes);
  });
  document.getElementById('store-said').hidden = store.lasts;
});
