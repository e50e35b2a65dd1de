"""The formats of an entry that are read: one row each, the present one last.

What is kept stays as it was sent, because signed cards are frozen over it; so a row is never removed. Phones may send
the present format and the one before it.
"""

from collections.abc import Callable, Mapping
from typing import Any, Literal

from baycard.journal.entry import FORMAT, Entry, entry_from_json, entry_to_json

Raw = Mapping[str, Any]
Reader = Callable[[Raw], Raw]
TAKEN = 2


def as_it_is(raw: Raw) -> Raw:
    """The reader of the present format."""
    return raw


# format -> how an entry of it, as JSON, is said in the present format (its `format` included)
READERS: dict[int, Reader] = {FORMAT: as_it_is}


def formats_taken() -> tuple[int, ...]:
    """The formats that phones may send: the present one and the one before it, if there was one."""
    return tuple(sorted(READERS)[-TAKEN:])


def in_present_format(raw: Raw) -> Raw | Literal["older-format", "not-an-entry"]:
    """An entry that just came in, said in the present format; what is of no known format is left to the judge."""
    written = raw.get("format")
    if type(written) is not int or READERS.get(written) is as_it_is:
        return raw
    taken = formats_taken()
    if written < taken[0]:
        return "older-format" if written > 0 else raw
    try:
        return READERS.get(written, as_it_is)(raw)
    except (KeyError, TypeError, AttributeError, ValueError):  # it is not what its format says
        return "not-an-entry"


def present(entry: Entry) -> Entry:
    """A kept entry said in the present format. One of a newer format, which a newer server left here, stays unread."""
    reader = READERS.get(entry.format, as_it_is)
    return entry if reader is as_it_is else entry_from_json(reader(entry_to_json(entry)))
