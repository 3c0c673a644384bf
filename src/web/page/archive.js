/* Files in one archive, and out of one: ZIP (PKWARE APPNOTE 6.3.10, sections 4.3.7 to 4.3.16), written without compression, read with
 * either method that everybody uses. */

const LOCAL = 0x04034b50;
const CENTRAL = 0x02014b50;
const END = 0x06054b50;
const UTF8_NAMES = 0x0800;

/* CRC-32 as ZIP has it (section 4.4.7): the polynomial 0xedb88320, bits reversed. */
const table = Uint32Array.from({ length: 256 }, (_, n) => {
  for (let bit = 0; bit < 8; bit++) n = n & 1 ? (n >>> 1) ^ 0xedb88320 : n >>> 1;
  return n;
});

export function checksum(bytes) {
  let sum = 0xffffffff;
  for (const byte of bytes) sum = table[(sum ^ byte) & 255] ^ (sum >>> 8);
  return (sum ^ 0xffffffff) >>> 0;
}

/* `fields` is a list of [size in bytes, value]. */
function record(fields) {
  const view = new DataView(new ArrayBuffer(fields.reduce((sum, [size]) => sum + size, 0)));
  let at = 0;
  for (const [size, value] of fields) {
    if (size === 2) view.setUint16(at, value, true);
    else view.setUint32(at, value, true);
    at += size;
  }
  return new Uint8Array(view.buffer);
}

/* `files` is a list of [name, text]; gives the archive's bytes.  All have one day, 1980-01-01, the first that there is. */
export function pack(files) {
  const pieces = [];
  const entries = [];
  let offset = 0;
  for (const [name, text] of files) {
    const called = new TextEncoder().encode(name);
    const bytes = new TextEncoder().encode(text);
    const shared = [[2, 20], [2, UTF8_NAMES], [2, 0], [2, 0], [2, 0x21], [4, checksum(bytes)], [4, bytes.length], [4, bytes.length], [2, called.length], [2, 0]];
    entries.push(record([[4, CENTRAL], [2, 20], ...shared, [2, 0], [2, 0], [2, 0], [4, 0], [4, offset]]), called);
    const head = record([[4, LOCAL], ...shared]);
    pieces.push(head, called, bytes);
    offset += head.length + called.length + bytes.length;
  }
  const size = entries.reduce((sum, piece) => sum + piece.length, 0);
  const end = record([[4, END], [2, 0], [2, 0], [2, files.length], [2, files.length], [4, size], [4, offset], [2, 0]]);
  return new Blob([...pieces, ...entries, end], { type: 'application/zip' });
}

async function inflate(bytes) {
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('deflate-raw'));
  return new Uint8Array(await new Response(stream).arrayBuffer());
}

/* The files of an archive as [name, text]; throws with the reason when it is none. */
export async function unpack(bytes) {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let end = bytes.length - 22;
  while (end >= 0 && view.getUint32(end, true) !== END) end--;
  if (end < 0) throw new Error('it is no archive');
  const files = [];
  let at = view.getUint32(end + 16, true);
  for (let left = view.getUint16(end + 10, true); left > 0; left--) {
    if (view.getUint32(at, true) !== CENTRAL) throw new Error('the archive is damaged');
    const [method, size] = [view.getUint16(at + 10, true), view.getUint32(at + 20, true)];
    const [called, extra, comment, local] = [view.getUint16(at + 28, true), view.getUint16(at + 30, true), view.getUint16(at + 32, true), view.getUint32(at + 42, true)];
    const name = new TextDecoder().decode(bytes.subarray(at + 46, at + 46 + called));
    const from = local + 30 + view.getUint16(local + 26, true) + view.getUint16(local + 28, true);
    const content = bytes.subarray(from, from + size);
    if (!name.endsWith('/')) {
      if (method !== 0 && method !== 8) throw new Error(`${name} is packed in a way that is not known here`);
      const plain = method === 0 ? content : await inflate(content);
      if (checksum(plain) !== view.getUint32(at + 16, true)) throw new Error(`${name} is damaged`);
      files.push([name, new TextDecoder().decode(plain)]);
    }
    at += 46 + called + extra + comment;
  }
  return files;
}
