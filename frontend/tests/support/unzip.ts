/** Reads plain zip archives by their listing at the end, for tests; compression is not known here. */

const END = 0x06054b50;
const LISTED = 0x02014b50;

/** The members by name. */
export function unzipped(bytes: Uint8Array): Map<string, Uint8Array> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const end = bytes.length - 22;
  if (view.getUint32(end, true) !== END) throw new Error("no end of a zip archive");
  const members = new Map<string, Uint8Array>();
  let at = view.getUint32(end + 16, true);
  for (let left = view.getUint16(end + 10, true); left > 0; left -= 1) {
    if (view.getUint32(at, true) !== LISTED) throw new Error("the listing is broken");
    const size = view.getUint32(at + 24, true);
    const nameBytes = view.getUint16(at + 28, true);
    const from = view.getUint32(at + 42, true) + 30 + nameBytes;
    members.set(
      new TextDecoder().decode(bytes.subarray(at + 46, at + 46 + nameBytes)),
      bytes.slice(from, from + size),
    );
    at += 46 + nameBytes;
  }
  return members;
}
