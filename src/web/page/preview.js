/* The side with the sheet: what the program prints as HTML, each in a frame of its own, so that it works here as it does on a phone at
 * the bench.  A new one is laid out unseen and takes the place of the old one where that was scrolled to. */

/* What the page has already is not shown twice. */
function hideDoubles(frame) {
  const styles = new frame.contentWindow.CSSStyleSheet();
  styles.replaceSync('#red-view { display: none; } @media screen { body { padding-block: 0.25rem; } article { border: 0 !important; } }');
  frame.contentDocument.adoptedStyleSheets = [styles];
}

function sizesOf(frame) {
  return [...(frame?.contentDocument?.querySelectorAll('.size') ?? [])].map((box) => [box.querySelector('.amount').value, box.querySelector('select').selectedIndex, box.dataset.touched]);
}

/* The size that was chosen by hand stays chosen when the text changes. */
function setSizes(frame, sizes) {
  frame.contentDocument.querySelectorAll('.size').forEach((box, i) => {
    box.addEventListener('change', () => (box.dataset.touched = 'yes'), true);
    box.addEventListener('input', () => (box.dataset.touched = 'yes'), true);
    box.querySelector('.as-written').addEventListener('click', () => delete box.dataset.touched);
    const [amount, unit, touched] = sizes[i] ?? [];
    if (touched === undefined) return;
    const select = box.querySelector('select');
    box.querySelector('.amount').value = amount;
    select.selectedIndex = unit;
    select.dispatchEvent(new frame.contentWindow.Event('change', { bubbles: true }));
  });
}

export function makePreview(parent) {
  let shown = null;
  let number = 0;
  const setRed = (frame, red) => {
    const button = frame.contentDocument?.getElementById('red-view');
    if (button && (button.getAttribute('aria-pressed') === 'true') !== red) button.click();
  };
  return {
    get frame() {
      return shown;
    },
    show(html, title, red) {
      const own = ++number;
      const frame = document.createElement('iframe');
      frame.className = 'coming';
      frame.title = title;
      frame.srcdoc = html;
      frame.addEventListener('load', () => {
        if (own !== number) {
          frame.remove();
          return;
        }
        hideDoubles(frame);
        setRed(frame, red);
        const top = shown?.title === title ? shown.contentWindow.scrollY : 0;
        setSizes(frame, shown?.title === title ? sizesOf(shown) : []);
        frame.contentWindow.scrollTo(0, top);
        shown?.remove();
        shown = frame;
        frame.classList.remove('coming');
        parent.dispatchEvent(new CustomEvent('shown'));
      });
      parent.append(frame);
    },
    clear() {
      number++;
      parent.replaceChildren();
      shown = null;
    },
    setRed(red) {
      if (shown !== null) setRed(shown, red);
    },
    print() {
      shown?.contentWindow.print();
    },
  };
}

/* For the browser's own printing of this page: the frame as high as what is in it. */
export function preparePrinting(preview) {
  window.addEventListener('beforeprint', () => {
    const height = preview.frame?.contentDocument.documentElement.scrollHeight;
    if (height) document.documentElement.style.setProperty('--printed', `${height + 40}px`);
  });
}
