"""The grammar of slots: what an entry is about, and which kinds may stand where."""

import re
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

SEGMENTS = re.compile(r"[a-z0-9.-]{1,80}(?:/[a-z0-9.-]{1,80}){0,5}")
LONGEST = 6 * 80 + 5
UUID = re.compile(r"[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}")
ROUND = re.compile(r"[1-9][0-9]?")
RESERVED = frozenset({"card", "vehicle", "customer", "finding", "photo", "sound", "work", "stage", "agreed"})
CARD_FOLDERS = frozenset({"complaint", "checklist"})

SlotIs = Literal[
    "fact",
    "maker",
    "complaint",
    "complaint-outcome",
    "checklist-chosen",
    "check",
    "finding-at",
    "finding",
    "photo",
    "sound",
    "work",
    "agreed",
    "stage",
]


@dataclass(frozen=True, slots=True)
class Slot:
    """A parsed slot. `is_` says which of the other parts are set; the rest stay empty or 0."""

    is_: SlotIs
    name: str = ""
    """field, maker's key, uuid of the complaint, finding, photo, sound or work, or the finding slot agreed on"""
    of: str = ""
    """for facts: vehicle, customer or card"""
    checklist: str = ""
    check: str = ""
    position: str = ""
    round: int = 0


KIND_STANDS_IN: dict[str, tuple[SlotIs, ...]] = {
    "fact": ("fact", "maker"),
    "complaint": ("complaint",),
    "complaint-outcome": ("complaint-outcome",),
    "checklist-chosen": ("checklist-chosen",),
    "answer": ("check",),
    "not-checked": ("check",),
    "finding": ("finding-at", "finding"),
    "finding-declined": ("finding-at", "finding"),
    "photo": ("photo",),
    "sound": ("sound",),
    "work-done": ("work",),
    "agreed": ("agreed",),
    "handed-in": ("stage",),
    "sent-back": ("stage",),
    "signed-off": ("stage",),
    "retraction": (
        "fact",
        "maker",
        "complaint",
        "complaint-outcome",
        "checklist-chosen",
        "check",
        "finding-at",
        "finding",
        "photo",
        "sound",
        "work",
        "agreed",
    ),
}
FOREMAN_KINDS = frozenset({"sent-back"})
SERVER_KINDS = frozenset({"signed-off"})


def check_slot(checklist: str, check: str, position: str, round: int) -> str:
    """The slot of a check at a position in a round (1 = as found)."""
    return f"{checklist}/{check}/{position}/{round}"


def finding_slot_for(checklist: str, check: str, position: str) -> str:
    """The slot of the finding that a check at a position proposes, whatever the round."""
    return f"finding/at/{checklist}/{check}/{position}"


def parse_slot(slot: str) -> Slot | None:
    """The parts of a slot, or None when it is not one."""
    return _parsed(slot) if len(slot) <= LONGEST else None


@lru_cache(maxsize=4_096)  # the same slots come again on every card
def _parsed(slot: str) -> Slot | None:
    if not SEGMENTS.fullmatch(slot):
        return None
    parts = slot.split("/")
    head = parts[0]
    if head not in RESERVED:
        return _check(parts)
    if head == "card":
        return _card(parts)
    if head in {"vehicle", "customer"}:
        return _fact(head, parts)
    if head == "finding":
        return _finding(parts)
    return _rest(head, parts)


def about_check(about: str) -> Slot | None:
    """The parts of a check's slot written without its round: checklist/check/position (round 0), or None."""
    parts = about.split("/")
    return _check([*parts, "1"], round=0) if parse_slot(f"{about}/1") and len(parts) == 3 else None


def may_stand(kind: str, slot: Slot) -> bool:
    """Whether an entry of this kind may stand in this slot; unknown kinds may stand nowhere."""
    return slot.is_ in KIND_STANDS_IN.get(kind, ())


def _check(parts: list[str], round: int | None = None) -> Slot | None:
    if len(parts) != 4 or not ROUND.fullmatch(parts[3]):
        return None
    number = int(parts[3]) if round is None else round
    return Slot("check", checklist=parts[0], check=parts[1], position=parts[2], round=number)


def _card(parts: list[str]) -> Slot | None:
    match parts[1:]:
        case ["complaint", uuid] if UUID.fullmatch(uuid):
            return Slot("complaint", name=uuid)
        case ["complaint", uuid, "outcome"] if UUID.fullmatch(uuid):
            return Slot("complaint-outcome", name=uuid)
        case ["checklist", checklist] if checklist not in RESERVED:
            return Slot("checklist-chosen", checklist=checklist)
        case [field] if field not in CARD_FOLDERS:
            return Slot("fact", of="card", name=field)
    return None


def _fact(head: str, parts: list[str]) -> Slot | None:
    match parts[1:]:
        case ["maker", key] if head == "vehicle":
            return Slot("maker", name=key)
        case [field] if (head, field) != ("vehicle", "maker"):
            return Slot("fact", of=head, name=field)
    return None


def _finding(parts: list[str]) -> Slot | None:
    match parts[1:]:
        case ["at", checklist, check, position] if checklist not in RESERVED:
            return Slot("finding-at", checklist=checklist, check=check, position=position)
        case [uuid] if UUID.fullmatch(uuid):
            return Slot("finding", name=uuid)
    return None


def _rest(head: str, parts: list[str]) -> Slot | None:
    match head, parts[1:]:
        case "photo", [uuid] if UUID.fullmatch(uuid):
            return Slot("photo", name=uuid)
        case "sound", [uuid] if UUID.fullmatch(uuid):
            return Slot("sound", name=uuid)
        case "work", [uuid] if UUID.fullmatch(uuid):
            return Slot("work", name=uuid)
        case "agreed", ["finding", *_] if _finding(parts[1:]):
            return Slot("agreed", name="/".join(parts[1:]))
        case "stage", []:
            return Slot("stage")
    return None
