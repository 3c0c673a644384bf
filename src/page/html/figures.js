/* Figures of a batch, printed as the program prints them (src/report/printing.c, src/base/number.c): the same sums in the same
 * order on the same doubles, so that a size chosen here shows what `--make` gives. */

/* `value` to so many decimal places; an exact half goes to the even figure, as in C. */
function fixed(value, places) {
  const text = value.toFixed(places); /* a half goes up */
  const exact = value.toFixed(100);   /* all the figures that such a double has */
  const cut = exact.indexOf('.') + 1 + places;
  const half = /^50*$/.test(exact.slice(cut));
  const last = Number(text[text.length - 1]);
  return half && last % 2 === 1 ? exact.slice(0, places === 0 ? cut - 1 : cut) : text;
}

function withoutZeros(text) {
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
}

function printed(value, places) {
  return withoutZeros(fixed(value, places));
}

function significant(value, figures) {
  if (value === 0 || !Number.isFinite(value)) {
    return value === 0 ? '0' : '?';
  }
  const exponent = Math.floor(Math.log10(Math.abs(value)));
  return printed(value, Math.max(0, figures - 1 - exponent));
}

function decimalsOfStep(step) {
  let decimals = 0;
  while (decimals < 6 && Math.abs(step - Math.round(step)) > 1e-9 * Math.abs(step)) {
    step *= 10;
    decimals++;
  }
  return decimals;
}

/* To a multiple of `step`; what would vanish, or be falsified by a tenth, keeps two figures. */
function rounded(value, step) {
  const steps = Math.round((value / step) * (1 + 1e-12));
  if (steps === 0 || Math.abs(steps * step - value) > 0.1 * Math.abs(value)) {
    return significant(value, 2);
  }
  return printed(steps * step, decimalsOfStep(step));
}

/* How a page's instruments show amounts; `data` is the page's dataset. */
function instruments(data) {
  const balance = Number(data.balance);
  const graduate = Number(data.graduate);
  const heavy = Number(data.heavy);
  const ladder = data.steps.split(' ').map((rung) => rung.split(':').map((figure) => (figure === 'inf' ? Infinity : Number(figure))));
  const volumeStep = (millilitres) => {
    const rung = ladder.find(([upTo]) => millilitres <= upTo) ?? ladder[ladder.length - 1];
    return Math.max(rung[1], graduate);
  };
  const mass = (grams) =>
    grams >= heavy ? `${rounded(grams / 1000, balance / 1000)}\u00a0kg` : `${rounded(grams, balance)}\u00a0g`;
  const volume = (millilitres) => {
    const step = volumeStep(millilitres);
    return Math.round(millilitres / step) * step >= 1000
      ? `${rounded(millilitres / 1000, step / 1000)}\u00a0L`
      : `${rounded(millilitres, step)}\u00a0mL`;
  };
  const massError = (grams) => balance / 2 / grams;
  const volumeError = (millilitres) => volumeStep(millilitres) / 2 / millilitres;
  const error = (share) => (share < 0.001 ? '<0.1\u00a0%' : `±${significant(share * 100, share < 0.01 ? 1 : 2)}\u00a0%`);
  return {
    mass,
    heavy,
    volume,
    count: (things) => printed(Math.floor(things + 1e-9), 0),
    times: (factor) => significant(factor, 4),
    'mass error': (grams) => error(massError(grams)),
    'volume error': (millilitres) => error(volumeError(millilitres)),
    /* The share that a figure tells, for those that tell one. */
    share: (way, amount) => (way === 'mass error' ? massError(amount) : volumeError(amount)),
  };
}

/* "6.5 to 7.8 g". */
function range(low, high) {
  const unit = low.replace(/^[0-9.]*/, '');
  return `${unit === high.replace(/^[0-9.]*/, '') ? low.slice(0, low.length - unit.length) : low} to ${high}`;
}

/* What a printed weight says, g, and to how many decimal places of a gram. */
function grams(printed) {
  const figure = /^[0-9.]*/.exec(printed)[0];
  const [factor, fewer] = printed.endsWith('kg') ? [1000, 3] : [1, 0];
  return { value: Number(figure) * factor, decimals: (figure.split('.')[1] ?? '').length - fewer };
}

/* A sum of weights as they are printed. */
function sumOf(addends, heavy) {
  const decimals = Math.max(0, ...addends.flat().map((end) => end.decimals));
  const [low, high] = [0, 1].map((end) => addends.reduce((sum, ends) => sum + ends[end].value, 0));
  const inWords = (sum) => (sum >= heavy ? `${printed(sum / 1000, decimals + 3)}\u00a0kg` : `${printed(sum, decimals)}\u00a0g`);
  return high > low ? range(inWords(low), inWords(high)) : inWords(low);
}

/* A text put together from its pieces for a batch `scale` times the formula as written. */
function textOf(pieces, show, scale) {
  const addends = [];
  return pieces
    .map((piece) => {
      if (typeof piece === 'string') {
        return piece;
      }
      const [way, number, high] = piece;
      if (way === 'addend') {
        const low = grams(show.mass(number * scale));
        addends.push([low, high === undefined ? low : grams(show.mass(high * scale))]);
        return '';
      }
      if (way === 'sum') {
        return sumOf(addends, show.heavy);
      }
      const low = show[way](number * scale);
      return high === undefined ? low : range(low, show[way](high * scale));
    })
    .join('');
}
