/* Courses by the clock, with a clock that the test holds in its hand. */
import { equal, made, ok, reload, withPage } from './harness.mjs';

const time = new Date('2026-03-04T10:00:00Z');
const second = 1000;
const timer = (page, part) => page.locator(`.timer .${part}`);
const shown = async (page) => [await timer(page, 'now').textContent(), await timer(page, 'left').textContent()];

/* Counts the tones that are started. */
const countTones = () => {
  window.tones = 0;
  const start = OscillatorNode.prototype.start;
  OscillatorNode.prototype.start = function (at) {
    window.tones++;
    return start.call(this, at);
  };
};
const tones = (page) => page.evaluate(() => window.tones);

async function stagesFollowTheClock() {
  await withPage(made('course'), { clock: time, scripts: [countTones] }, async (page) => {
    equal(await shown(page), ['developer, 20 °C; 10 s every minute', '9:00'], 'before the start');
    equal(await timer(page, 'then').textContent(), 'then stop, 0:30', 'what follows');
    ok(await timer(page, 'next').isDisabled(), 'next before the start');
    await timer(page, 'start').click();
    equal(await timer(page, 'start').textContent(), 'Pause', 'the button');
    await page.clock.fastForward(60 * second);
    equal((await shown(page))[1], '8:00', 'after a minute');
    equal(await tones(page), 0, 'tones so far');
    await page.clock.fastForward(469 * second);
    await page.clock.runFor(2 * second);
    equal((await shown(page))[1], '0:09', 'near the end');
    equal(await tones(page), 1, 'tones before the end');
    await page.clock.runFor(10 * second);
    equal(await shown(page), ['stop', '0:29'], 'the next stage');
    equal(await tones(page), 3, 'tones at the end');
    await page.clock.runFor(30 * second);
    equal(await shown(page), ['change over', '0:29'], 'between the baths');
    await page.clock.runFor(30 * second);
    equal(await shown(page), ['fixer, until clear', '0:01 so far'], 'until it is done');
    await page.clock.fastForward(600 * second);
    equal((await shown(page))[0], 'fixer, until clear', 'still');
    await timer(page, 'next').click();
    equal(await shown(page), ['wash', '10:00'], 'the last stage');
    await page.clock.fastForward(601 * second);
    equal(await shown(page), ['All stages are done', ''], 'the end');
    ok(await timer(page, 'start').isDisabled(), 'start at the end');
    await timer(page, 'reset').click();
    equal((await shown(page))[1], '9:00', 'back at the start');
  });
}

async function aPauseStopsTheClock() {
  await withPage(made('course'), { clock: time }, async (page) => {
    await timer(page, 'start').click();
    await page.clock.fastForward(60 * second);
    await timer(page, 'start').click();
    equal(await timer(page, 'start').textContent(), 'Continue', 'the button');
    await page.clock.fastForward(600 * second);
    equal((await shown(page))[1], '8:00', 'paused');
    await reload(page);
    equal((await shown(page))[1], '8:00', 'paused, after a reload');
    await timer(page, 'start').click();
    await page.clock.runFor(10 * second);
    equal((await shown(page))[1], '7:50', 'continued');
  });
}

async function aReloadLosesNoTime() {
  await withPage(made('course'), { clock: time }, async (page) => {
    await timer(page, 'start').click();
    await page.clock.fastForward(100 * second);
    await reload(page);
    equal((await shown(page))[1], '7:20', 'after a reload');
    await page.clock.runFor(10 * second);
    equal((await shown(page))[1], '7:10', 'and on');
  });
}

/* The device slept: timers did not run, the clock did. */
async function sleepLosesNoTime() {
  await withPage(made('course'), { clock: time, scripts: [countTones] }, async (page) => {
    await timer(page, 'start').click();
    await page.clock.fastForward(545 * second);
    equal(await shown(page), ['stop', '0:25'], 'awake again');
    equal(await tones(page), 0, 'tones for what is long over');
    await page.clock.fastForward(3600 * second);
    equal(await shown(page), ['fixer, until clear', '59:05 so far'], 'awake again');
  });
}

async function stagesAreSaidSparingly() {
  await withPage(made('course'), { clock: time }, async (page) => {
    const said = await page.evaluateHandle(() => {
      const list = [];
      const now = document.querySelector('.timer .now');
      new MutationObserver(() => list.push(now.textContent)).observe(now, { childList: true, characterData: true, subtree: true });
      return list;
    });
    equal(await timer(page, 'now').getAttribute('role'), 'status', 'role of what is said');
    equal(await timer(page, 'left').getAttribute('role'), 'timer', 'role of the time');
    await timer(page, 'start').click();
    await page.clock.fastForward(520 * second);
    await page.clock.runFor(55 * second);
    equal(await said.jsonValue(), ['stop', 'change over'], 'said near the end of one bath and through the next');
  });
}

async function theScreenStaysOnWhileATimerRuns() {
  const scripts = [
    () => {
      window.locks = 0;
      const request = async () => {
        window.locks++;
        const lock = { released: false, release: async () => { lock.released = true; window.locks--; } };
        return lock;
      };
      Object.defineProperty(navigator, 'wakeLock', { value: { request }, configurable: true });
    },
  ];
  await withPage(made('course'), { clock: time, scripts }, async (page) => {
    const locks = () => page.evaluate(() => window.locks);
    equal(await locks(), 0, 'at first');
    await timer(page, 'start').click();
    equal(await locks(), 1, 'while it runs');
    await timer(page, 'start').click();
    equal(await locks(), 0, 'while it rests');
    await page.locator('#stay-awake').click();
    equal(await locks(), 1, 'when asked for');
    equal(await page.locator('#stay-awake').getAttribute('aria-pressed'), 'true', 'the button');
    await page.locator('#stay-awake').click();
    equal(await locks(), 0, 'no more');
  });
}

export const tests = {
  stagesFollowTheClock,
  aPauseStopsTheClock,
  aReloadLosesNoTime,
  sleepLosesNoTime,
  stagesAreSaidSparingly,
  theScreenStaysOnWhileATimerRuns,
};
