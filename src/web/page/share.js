/* A formula in the fragment of a link, which no server ever sees: its text compressed (RFC 1951) in base64 for links (RFC 4648, 5). */

async function through(stream, bytes) {
  return new Uint8Array(await new Response(new Blob([bytes]).stream().pipeThrough(stream)).arrayBuffer());
}

export async function linkOf(text) {
  const bytes = await through(new CompressionStream('deflate-raw'), new TextEncoder().encode(text));
  const signs = btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join(''));
  return `${location.href.replace(/#.*/, '')}#formula=${signs.replaceAll('+', '-').replaceAll('/', '_').replace(/=+$/, '')}`;
}

/* The text that a link's fragment holds; null when it holds none. */
export async function textOf(fragment) {
  const signs = /^#formula=([\w-]+)$/.exec(fragment)?.[1];
  if (signs === undefined) return null;
  try {
    const bytes = Uint8Array.from(atob(signs.replaceAll('-', '+').replaceAll('_', '/')), (sign) => sign.charCodeAt(0));
    return new TextDecoder('utf-8', { fatal: true }).decode(await through(new DecompressionStream('deflate-raw'), bytes));
  } catch {
    return null;
  }
}
