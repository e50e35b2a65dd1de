"""What must hold: at every step, and when the weather has been good and everything has come to rest."""

import hashlib
from collections import defaultdict
from collections.abc import Iterable
from typing import Any

Entry = dict[str, Any]


class BrokenPromiseError(AssertionError):
    """Something that was promised did not hold."""


def hold(promise: bool, words: str, *details: object) -> None:
    """Raise when a promise is broken."""
    if not promise:
        raise BrokenPromiseError(": ".join([words, *map(str, details)]))


def naive_standing(entries: Iterable[Entry]) -> dict[tuple[str, str], list[str]]:
    """For each slot of a card what stands in it, said as simply as it can be said."""
    every = {entry["id"]: entry for entry in entries}
    standing: dict[tuple[str, str], list[str]] = defaultdict(list)
    for entry in every.values():
        replaced = any(
            entry["id"] in other["replaces"]
            for other in every.values()
            if (other["card"], other["slot"]) == (entry["card"], entry["slot"]) and other["id"] != entry["id"]
        )
        if not replaced:
            standing[entry["card"], entry["slot"]].append(entry["id"])
    return standing


def check_view(name: str, view: dict[str, Any], on_server: list[Entry]) -> None:
    """One phone against the server: the same entries, what stands and what disagrees as the naive model says."""
    refused = {line["id"] for line in view["waiting"]["entries"]}
    mine = [entry for entry in view["entries"] if entry["id"] in refused]
    expected = [*on_server, *mine]
    hold(_ids(view["entries"]) == _ids(expected), f"{name} holds what the server holds", _difference(view, expected))
    standing = naive_standing(expected)
    hold(
        sorted(view["standing"]) == sorted(id_ for ids in standing.values() for id_ in ids),
        f"what stands on {name} is what nothing replaces",
    )
    disagreeing = sorted([card, slot] for (card, slot), ids in standing.items() if len(ids) > 1)
    hold(sorted(view["disagreements"]) == disagreeing, f"{name} shows the disagreements and no others", disagreeing)
    hold(view["status"]["out_of_step"] == [], f"{name} and the server agree", view["status"]["out_of_step"])


def check_refused(name: str, view: dict[str, Any], poison: set[str]) -> None:
    """Refused entries are in sight with a reason, and only those are refused that the server cannot take."""
    for line in view["waiting"]["entries"]:
        hold(line["id"] in poison, f"{name} holds back nothing that the server would take", line)
        reason = line["reason"] or {}
        hold(bool(reason.get("title")) and bool(reason.get("do")), f"{name} says why it was refused", line)
    hold(view["waiting"]["blobs"] == [], f"every photo and sound of {name} is sent", view["waiting"]["blobs"])


def check_blob(sha256: str, sent: bytes, kept: bytes, mime: str) -> None:
    """A sound is kept as it was sent; a photo is cleaned, and so only known to be whole by what it was named."""
    hold(hashlib.sha256(sent).hexdigest() == sha256, "the name of a blob is its hash", sha256)
    if mime.startswith("audio/"):
        hold(kept == sent, "a sound is kept byte by byte", sha256, len(sent), len(kept))
    else:
        hold(kept.startswith(b"\xff\xd8") and kept.endswith(b"\xff\xd9"), "a photo is kept whole", sha256)


def _ids(entries: Iterable[Entry]) -> list[str]:
    return sorted(entry["id"] for entry in entries)


def _difference(view: dict[str, Any], expected: list[Entry]) -> str:
    here, there = set(_ids(view["entries"])), set(_ids(expected))
    return f"only here {sorted(here - there)}, only there {sorted(there - here)}"
