"""What the judge says when it does not take an entry."""

from dataclasses import dataclass
from typing import Literal, get_args

RefusalCode = Literal[
    "not-an-entry",
    "newer-format",
    "bad-id",
    "unknown-kind",
    "unknown-slot",
    "kind-not-in-slot",
    "replaces-itself",
    "replaces-nothing",
    "missing-part",
    "unknown-part",
    "wrong-type",
    "not-a-number",
    "out-of-range",
    "not-the-mean",
    "wrong-unit",
    "unknown-word",
    "wrong-form",
    "too-long",
    "too-few",
    "too-many",
    "unreadable-characters",
]
REFUSAL_CODES: tuple[RefusalCode, ...] = get_args(RefusalCode)


@dataclass(frozen=True, slots=True)
class Refusal:
    """Why an entry was not taken: a code for programs, a title and what to do in plain words for people."""

    code: RefusalCode
    title: str
    do: str
