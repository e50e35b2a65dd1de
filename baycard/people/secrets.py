"""Secrets of people: how they are kept and compared, and which are refused."""

from argon2 import PasswordHasher
from argon2.exceptions import InvalidHashError, VerifyMismatchError

SECRET_LENGTH_MIN = 8
SECRET_LENGTH_MAX = 200

_hasher = PasswordHasher(time_cost=2, memory_cost=19_456, parallelism=1)
# Compared when nobody has the name, so that the time an answer takes does not tell which names exist.
_nobody = _hasher.hash("nobody has this secret")


def hash_secret(secret: str) -> str:
    """The Argon2id hash that is kept in place of a secret."""
    return _hasher.hash(secret)


def matches(secret: str, kept: str | None) -> bool:
    """Whether a secret is the one whose hash was kept; None compares against nobody's and is always False."""
    try:
        return _hasher.verify(kept or _nobody, secret) and kept is not None
    except (VerifyMismatchError, InvalidHashError):
        return False


def weakness(secret: str, name: str) -> str | None:
    """What is wrong with a new secret, in a sentence, or None."""
    if not SECRET_LENGTH_MIN <= len(secret) <= SECRET_LENGTH_MAX:
        return f"The secret needs {SECRET_LENGTH_MIN} to {SECRET_LENGTH_MAX} characters."
    if secret.casefold() in {name.casefold(), secret[:1].casefold() * len(secret)}:
        return "The secret must not be the name, nor one character repeated."
    return None
