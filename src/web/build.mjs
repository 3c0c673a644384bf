/* build.mjs WASM GENERATED OUT: packs src/web/module.mjs and the page into OUT/potash.mjs and OUT/potash.html, one file each.  WASM is the
 * folder of module.js and module.wasm; GENERATED that of page_html_files.c, whose digests the page has to let through, since it shows
 * sheets as the program makes them. */
import { build } from 'esbuild';
import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';

const [wasm, generated, out] = process.argv.slice(2);
const here = dirname(fileURLToPath(import.meta.url));
const packed = gzipSync(readFileSync(join(wasm, 'module.wasm')), { level: 9 }).toString('base64');

/* What is imported by a bare name that is no package. */
function parts(program) {
  return {
    name: 'parts',
    setup(bundle) {
      bundle.onResolve({ filter: /^(emscripten|program)$/ }, ({ path }) => ({ path, namespace: 'part' }));
      bundle.onLoad({ filter: /.*/, namespace: 'part' }, ({ path }) =>
        path === 'program' ? { contents: program, loader: 'js' } : { contents: readFileSync(join(wasm, 'module.js'), 'utf8'), loader: 'js' });
    },
  };
}

async function bundle(entry, format, program) {
  const made = await build({
    entryPoints: [join(here, entry)], bundle: true, minify: true, write: false, format, target: 'es2022', charset: 'utf8',
    legalComments: 'none', plugins: [parts(program)], loader: { '.bath': 'text' }, platform: 'browser', define: { process: 'undefined' },
  });
  return made.outputFiles[0].text;
}

const digest = (text) => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;

mkdirSync(out, { recursive: true });
writeFileSync(join(out, 'potash.mjs'), await bundle('module.mjs', 'esm', `export default ${JSON.stringify(packed)};`));

const sheets = [...readFileSync(join(generated, 'page_html_files.c'), 'utf8').matchAll(/_digest\[\] = "(sha256-[^"]*)"/g)].map((found) => `'${found[1]}'`);
const [sheetScript, sheetStyles] = sheets;
const script = await bundle('page/main.js', 'iife', 'export default document.getElementById("program").textContent;');
const styles = readFileSync(join(here, 'page/room.css'), 'utf8');
/* The editor puts its styles in with a word that only this page knows. */
const nonce = createHash('sha256').update(script).digest('hex').slice(0, 24);
const policy = `default-src 'none'; script-src ${digest(script)} ${sheetScript} 'wasm-unsafe-eval'; ` +
  `style-src ${digest(styles)} ${sheetStyles} 'nonce-${nonce}'; img-src data:; base-uri 'none'; form-action 'none'`;
const page = readFileSync(join(here, 'page/room.html'), 'utf8');
const fill = { POLICY: policy, STYLES: styles, PROGRAM: packed, SCRIPT: script, NONCE: nonce };
writeFileSync(join(out, 'potash.html'), page.replace(/@([A-Z]+)@/g, (all, name) => fill[name] ?? all));
