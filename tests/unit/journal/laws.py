"""The laws of merging, in one helper that every example passes through."""

from collections.abc import Iterable, Sequence

from baycard.journal.digest import digest
from baycard.journal.entry import Entry
from baycard.journal.standing import disagreements, standing


def naive_standing(entries: Iterable[Entry]) -> dict[str, set[str]]:
    """What stands, written as plainly as can be: an entry that no other of its slot names."""
    held = list(entries)
    stands: dict[str, set[str]] = {}
    for one in held:
        others = [other for other in held if other.id != one.id and other.slot == one.slot]
        if not any(one.id in other.replaces for other in others):
            stands.setdefault(one.slot, set()).add(one.id)
    return stands


def assert_converges(heaps: Sequence[Sequence[Entry]], written: Sequence[Entry]) -> None:
    """However the entries were handed round, the whole of them gives one standing, that of the naive model.

    heaps: what each phone received, in its order, repeats and all; together they are everything that was written.
    """
    union = {one.id: one for heap in heaps for one in heap}
    assert set(union) == {one.id for one in written}, "an entry was lost or appeared from nowhere"
    expected = standing(written)
    for first in range(len(heaps)):
        order = [one for heap in [*heaps[first:], *heaps[:first]] for one in heap]
        assert standing(order) == expected
        assert digest({one.id for one in order}) == digest({one.id for one in written})
    assert {slot: {one.id for one in stand} for slot, stand in expected.items()} == naive_standing(written)
    assert set(disagreements(expected)) == {slot for slot, ids in naive_standing(written).items() if len(ids) > 1}


def assert_nothing_comes_back(heap: Sequence[Entry]) -> None:
    """Once an entry has been seen replaced it never stands again, whatever arrives later."""
    replaced: set[tuple[str, str]] = set()
    for count in range(1, len(heap) + 1):
        seen = heap[:count]
        replaced |= {(one.slot, id) for one in seen for id in one.replaces if id != one.id}
        stands = {(slot, one.id) for slot, stand in standing(seen).items() for one in stand}
        assert not stands & replaced
