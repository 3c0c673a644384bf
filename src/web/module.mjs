/* Potash for JavaScript, in browsers and under Node.
 *
 *     import open from "./potash.mjs";
 *     const p = await open();
 *     p.run(["check", "a.bath", "--as", "json"], {files: {"a.bath": text}})   // {status, stdout, stderr, files}
 *
 * The program is WebAssembly; it sees the files that a call is given and no others, and fetches nothing. */
import instantiate from 'emscripten';
import packed from 'program';

const FOLDER = '/work';

/* The program as bytes: it stands in this file compressed by gzip (RFC 1952), in base64. */
async function unpack() {
  const bytes = Uint8Array.from(atob(packed), (sign) => sign.charCodeAt(0));
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip'));
  return new Response(stream).arrayBuffer();
}

/* Bytes that come one by one, as text. */
class Outlet {
  bytes = new Uint8Array(4096);
  length = 0;
  put(byte) {
    if (byte === null) return;
    if (this.length === this.bytes.length) {
      const more = new Uint8Array(this.length * 2);
      more.set(this.bytes);
      this.bytes = more;
    }
    this.bytes[this.length++] = byte;
  }
  take() {
    const text = new TextDecoder().decode(this.bytes.subarray(0, this.length));
    this.length = 0;
    return text;
  }
}

/* One instance of the program; its main can be called any number of times. */
async function start(compiled) {
  const out = new Outlet();
  const err = new Outlet();
  const machine = { input: new Uint8Array(), read: 0 };
  const module = await instantiate({
    instantiateWasm(imports, done) {
      WebAssembly.instantiate(compiled, imports).then(done);
      return {};
    },
    preRun: [
      (own) =>
        own.FS.init(
          () => (machine.read < machine.input.length ? machine.input[machine.read++] : null),
          (byte) => out.put(byte),
          (byte) => err.put(byte),
        ),
    ],
  });
  module.FS.mkdir(FOLDER);
  module.FS.chdir(FOLDER);
  return { module, out, err, machine };
}

function writeFiles(fs, files) {
  for (const [name, content] of Object.entries(files)) {
    const path = `${FOLDER}/${name}`;
    fs.mkdirTree(path.slice(0, path.lastIndexOf('/')));
    fs.writeFile(path, content);
  }
}

/* Takes all files away, and gives those that are new or not as they were, as bytes where they are no UTF-8. */
function takeFiles(fs, folder, before, changed) {
  for (const name of fs.readdir(folder)) {
    if (name === '.' || name === '..') continue;
    const path = `${folder}/${name}`;
    if (fs.isDir(fs.stat(path).mode)) {
      takeFiles(fs, path, before, changed);
      fs.rmdir(path);
      continue;
    }
    const bytes = fs.readFile(path);
    let content = bytes;
    try {
      content = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
    } catch {
      // No text.
    }
    const known = path.slice(FOLDER.length + 1);
    if (before[known] !== content) changed[known] = content;
    fs.unlink(path);
  }
}

/* Opens the program.  `run` is what the command line is: words, without the program's name; `files` are those that it finds, by name,
 * and `stdin` is what it reads as "-".  It gives the exit status, both streams, and the files that were written.  Should the program
 * fail as a whole, out of memory, say, `run` throws, and the next call has a fresh one. */
export default async function open() {
  const compiled = await WebAssembly.compile(await unpack());
  let current = await start(compiled);
  let spare = start(compiled);
  spare.then((ready) => (spare = ready));
  return {
    run(words, { files = {}, stdin = '' } = {}) {
      const { module, out, err, machine } = current;
      machine.input = new TextEncoder().encode(stdin);
      machine.read = 0;
      try {
        writeFiles(module.FS, files);
        const status = module.callMain([...words]);
        const changed = {};
        takeFiles(module.FS, FOLDER, files, changed);
        return { status, stdout: out.take(), stderr: err.take(), files: changed };
      } catch (error) {
        if (!(spare instanceof Promise)) {
          current = spare;
          spare = start(compiled);
          spare.then((ready) => (spare = ready));
        }
        throw error;
      }
    },
  };
}
