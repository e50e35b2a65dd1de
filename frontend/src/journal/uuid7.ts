/** UUID version 7, made from a clock and random bytes that are handed in. */

export const RANDOM_BYTES = 10;
const MS_LIMIT = 2 ** 48;

/**
 * A UUIDv7 that sorts by its millisecond.
 *
 * nowMs: milliseconds since 1970-01-01 UTC, 0 to 2^48 - 1; randomBytes: ten bytes, 74 bits of which are used.
 * Source: RFC 9562, section 5.7. Throws RangeError when the clock or the number of bytes is outside that.
 */
export function uuid7(nowMs: number, randomBytes: Uint8Array): string {
  if (!Number.isInteger(nowMs) || nowMs < 0 || nowMs >= MS_LIMIT)
    throw new RangeError(`nowMs must be 0 to 2^48 - 1, not ${nowMs}`);
  if (randomBytes.length !== RANDOM_BYTES)
    throw new RangeError(`${RANDOM_BYTES} random bytes are needed, not ${randomBytes.length}`);
  const random = Array.from(randomBytes, (byte, place) => {
    if (place === 0) return 0x70 | (byte & 0x0f);
    return place === 2 ? 0x80 | (byte & 0x3f) : byte;
  });
  const digits =
    nowMs.toString(16).padStart(12, "0") + random.map((byte) => byte.toString(16).padStart(2, "0")).join("");
  const cut = [0, 8, 12, 16, 20, 32];
  return cut
    .slice(1)
    .map((end, place) => digits.slice(cut[place], end))
    .join("-");
}
