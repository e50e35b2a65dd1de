"""What stands: the entries that nothing replaces. It depends on the set of entries alone."""

from collections.abc import Iterable, Mapping

from baycard.journal.entry import Entry
from baycard.journal.formats import present

Standing = Mapping[str, tuple[Entry, ...]]


def standing(entries: Iterable[Entry]) -> Standing:
    """For each slot of one card the entries no other entry of that slot names, oldest id first.

    Twice the same id counts once. Slots in order of their name; a slot whose entries are all replaced is left out.
    """
    slots: dict[str, dict[str, Entry]] = {}
    replaced: dict[str, set[str]] = {}
    for entry in map(present, entries):
        slots.setdefault(entry.slot, {})[entry.id] = entry
        if entry.replaces:
            replaced.setdefault(entry.slot, set()).update(id for id in entry.replaces if id != entry.id)
    left = {slot: _unreplaced(held, replaced.get(slot, set())) for slot, held in sorted(slots.items())}
    return {slot: stand for slot, stand in left.items() if stand}


def _unreplaced(held: dict[str, Entry], replaced: set[str]) -> tuple[Entry, ...]:
    if len(held) == 1 and not replaced:
        return tuple(held.values())
    return tuple(held[id] for id in sorted(held) if id not in replaced)


def disagreements(stand: Standing) -> list[str]:
    """The slots in which two or more entries stand, in order of their name."""
    return [slot for slot, entries in stand.items() if len(entries) > 1]
