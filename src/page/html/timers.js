/* Courses by the clock.  What is kept is when a stage began, so that the time left is right after a reload, and when the device
 * has slept. */

const sound = {
  context: null,
  /* Browsers let a page sound only after somebody has touched it. */
  allow() {
    if (this.context === null && 'AudioContext' in window) {
      this.context = new AudioContext();
    }
    this.context?.resume();
  },
  beep(times) {
    if (this.context === null) {
      return;
    }
    for (let i = 0; i < times; i++) {
      const at = this.context.currentTime + i * 0.3;
      const tone = this.context.createOscillator();
      const gain = this.context.createGain();
      tone.frequency.value = 880;
      gain.gain.setValueAtTime(0.0001, at);
      gain.gain.exponentialRampToValueAtTime(0.4, at + 0.02);
      gain.gain.exponentialRampToValueAtTime(0.0001, at + 0.2);
      tone.connect(gain).connect(this.context.destination);
      tone.start(at);
      tone.stop(at + 0.22);
    }
  },
};

const WARNING = 10; /* s before the end of a stage */
const LATE = 3; /* s after which nobody is called any more: the device has slept */

function clock(seconds) {
  const whole = Math.max(0, Math.ceil(seconds - 1e-6));
  const two = (figure) => String(figure).padStart(2, '0');
  const [hours, minutes, rest] = [Math.floor(whole / 3600), Math.floor(whole / 60) % 60, whole % 60];
  return hours > 0 ? `${hours}:${two(minutes)}:${two(rest)}` : `${minutes}:${two(rest)}`;
}

/* The stages of a course and the pauses between them, by the table below the timer. */
function readStages(course) {
  const stages = [];
  let end = null;
  for (const row of course.querySelectorAll('tr[data-start]')) {
    const start = Number(row.dataset.start);
    if (end !== null && start > end + 0.5) {
      stages.push({ name: 'change over', detail: '', length: start - end, row: null });
    }
    const length = row.dataset.duration === undefined ? Infinity : Number(row.dataset.duration);
    const text = (name) => row.querySelector(name)?.textContent ?? '';
    stages.push({ name: text('.stage'), detail: text('.detail'), length, row });
    end = Number.isFinite(length) ? start + length : null;
  }
  return stages;
}

/* What was kept of a course, unless it is not as this script writes it. */
function readCourse(name, count) {
  const kept = recall(name, {});
  const good =
    isObject(kept) &&
    Number.isInteger(kept.stage) &&
    kept.stage >= 0 &&
    kept.stage <= count &&
    Number.isFinite(kept.spent) &&
    (kept.since === null || Number.isFinite(kept.since));
  return good ? kept : { stage: 0, since: null, spent: 0 };
}

function startCourse(course, name) {
  const stages = readStages(course);
  const part = (selector) => course.querySelector(selector);
  const [now, left, then] = ['.now', '.left', '.then'].map(part);
  const [start, next, reset] = ['.start', '.next', '.reset'].map(part);
  /* Stage at hand; when it was started or continued, ms of the clock, null while it rests; ms spent in it before that. */
  let state = readCourse(name, stages.length);
  let warned = false;

  const spent = () => state.spent + (state.since === null ? 0 : Date.now() - state.since);
  const begun = () => state.since !== null || state.stage > 0 || state.spent > 0;
  const keep = () => {
    if (begun()) {
      store.set(name, JSON.stringify(state));
    } else {
      store.drop(name);
    }
    awake.want(course, state.since !== null);
  };

  /* Stages that have ended by the clock are left behind. */
  const advance = () => {
    let ended = null;
    while (state.since !== null && state.stage < stages.length && spent() >= stages[state.stage].length * 1000) {
      const end = state.since + stages[state.stage].length * 1000 - state.spent;
      ended = end;
      state = { stage: state.stage + 1, since: state.stage + 1 < stages.length ? end : null, spent: 0 };
      warned = false;
    }
    if (ended !== null) {
      keep();
      if (Date.now() - ended < LATE * 1000) {
        sound.beep(state.stage < stages.length ? 2 : 4);
      }
    }
  };

  const set = (element, text) => {
    if (element.textContent !== text) { /* a reader says aloud what is set anew */
      element.textContent = text;
    }
  };

  const draw = () => {
    advance();
    const stage = stages[state.stage];
    for (const other of stages) {
      other.row?.classList.toggle('next', other === stage && begun());
    }
    set(start, state.since !== null ? 'Pause' : begun() && stage !== undefined ? 'Continue' : 'Start');
    start.disabled = stage === undefined;
    next.disabled = stage === undefined || !begun();
    reset.disabled = !begun();
    if (stage === undefined) {
      set(now, 'All stages are done');
      set(left, '');
      set(then, '');
      return;
    }
    const follows = stages[state.stage + 1];
    set(now, stage.detail === '' ? stage.name : `${stage.name}, ${stage.detail}`);
    const rest = stage.length - spent() / 1000;
    set(left, Number.isFinite(rest) ? clock(rest) : `${clock(Math.floor(spent() / 1000))} so far`);
    set(then, follows === undefined ? 'then done' : `then ${follows.name}${Number.isFinite(follows.length) ? `, ${clock(follows.length)}` : ''}`);
    if (state.since !== null && rest <= WARNING && stage.length > 2 * WARNING && !warned) {
      warned = true;
      if (rest > WARNING - LATE) {
        sound.beep(1);
      }
    }
  };

  start.addEventListener('click', () => {
    sound.allow();
    advance();
    if (state.stage < stages.length) {
      state = state.since === null ? { ...state, since: Date.now() } : { ...state, since: null, spent: spent() };
    }
    keep();
    draw();
  });
  next.addEventListener('click', () => {
    sound.allow();
    advance();
    const running = state.since !== null && state.stage + 1 < stages.length;
    state = { stage: Math.min(state.stage + 1, stages.length), since: running ? Date.now() : null, spent: 0 };
    warned = false;
    keep();
    draw();
  });
  reset.addEventListener('click', () => {
    state = { stage: 0, since: null, spent: 0 };
    warned = false;
    keep();
    draw();
    start.focus(); /* the button pressed cannot be pressed any more */
  });
  /* After a reload the first touch of the page gives the sound back. */
  document.addEventListener('pointerdown', () => state.since !== null && sound.allow());
  document.addEventListener('keydown', () => state.since !== null && sound.allow());
  document.addEventListener('visibilitychange', draw);
  setInterval(() => state.since !== null && draw(), 200);
  awake.want(course, state.since !== null);
  draw();
}

document.addEventListener('DOMContentLoaded', () => {
  for (const article of document.querySelectorAll('article')) {
    article.querySelectorAll('.course').forEach((course, index) => startCourse(course, `course:${article.dataset.key}:${index}`));
  }
});
