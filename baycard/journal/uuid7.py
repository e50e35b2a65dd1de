"""UUID version 7, made from a clock and random bytes that are handed in."""

RANDOM_BYTES = 10
MS_LIMIT = 1 << 48


def uuid7(now_ms: int, random_bytes: bytes) -> str:
    """A UUIDv7 that sorts by its millisecond.

    now_ms: milliseconds since 1970-01-01 UTC, 0 to 2^48 - 1; random_bytes: ten bytes, 74 bits of which are used.
    Source: RFC 9562, section 5.7.
    Raises ValueError when the clock or the number of bytes is outside that.
    """
    if not 0 <= now_ms < MS_LIMIT:
        raise ValueError(f"now_ms must be 0 to 2^48 - 1, not {now_ms}")
    if len(random_bytes) != RANDOM_BYTES:
        raise ValueError(f"{RANDOM_BYTES} random bytes are needed, not {len(random_bytes)}")
    octets = bytearray(now_ms.to_bytes(6, "big") + random_bytes)
    octets[6] = 0x70 | octets[6] & 0x0F
    octets[8] = 0x80 | octets[8] & 0x3F
    digits = octets.hex()
    return "-".join((digits[:8], digits[8:12], digits[12:16], digits[16:20], digits[20:]))
