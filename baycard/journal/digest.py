"""A short proof that two sides hold the same entries."""

import hashlib
from collections.abc import Iterable


def digest(ids: Iterable[str]) -> str:
    """SHA-256 in hex of the sorted ids joined by newlines; the same whatever their order."""
    return digest_in_order(sorted(ids))


def digest_in_order(ids: Iterable[str]) -> str:
    """SHA-256 in hex of the ids joined by newlines: the same only for the same ids in the same order."""
    return hashlib.sha256("\n".join(ids).encode(errors="replace")).hexdigest()
