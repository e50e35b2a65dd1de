"""The hash of a sign-off is the same whatever the order and changes with everything it covers."""

import dataclasses
import hashlib

from baycard.journal.entry import Entry
from baycard.journal.freeze import PinnedChecklist, freeze, frozen_bytes

ONE = Entry("1", "card", "vehicle/vin", "fact", {"value": "\u00e4"}, (), "ines", "phone", "2026-11-20T09:14:03.120Z")
TWO = Entry("2", "card", "a/b/c/1", "answer", {"unit": "mm", "is": "number", "value": 1.0}, ("1",), "tom", "p", "t")
PINS = [PinnedChecklist("b", 2, "bb"), PinnedChecklist("a", 1, "aa")]


def test_the_frozen_bytes_are_canonical_json_with_sorted_parts() -> None:
    frozen = frozen_bytes("card", PINS, [TWO, ONE]).decode()
    assert frozen == (
        '{"card":"card","checklists":[{"id":"a","sha256":"aa","version":1},{"id":"b","sha256":"bb","version":2}],'
        '"entries":[{"author":"ines","body":{"value":"\u00e4"},"card":"card","device":"phone","format":1,"id":"1",'
        '"kind":"fact","made_at":"2026-11-20T09:14:03.120Z","replaces":[],"slot":"vehicle/vin"},'
        '{"author":"tom","body":{"is":"number","unit":"mm","value":1},"card":"card","device":"p","format":1,"id":"2",'
        '"kind":"answer","made_at":"t","replaces":["1"],"slot":"a/b/c/1"}]}'
    )
    assert freeze("card", PINS, [TWO, ONE]) == hashlib.sha256(frozen.encode()).hexdigest()


def test_the_order_of_entries_and_checklists_does_not_change_the_hash() -> None:
    assert freeze("card", PINS, [ONE, TWO]) == freeze("card", PINS[::-1], [TWO, ONE])


def test_every_part_of_an_entry_changes_the_hash() -> None:
    before = freeze("card", PINS, [ONE, TWO])
    others = {
        "id": "3", "card": "x", "slot": "s", "kind": "k", "body": {}, "replaces": (), "author": "x", "device": "x",
        "made_at": "x", "format": 2, "clock_off_ms": 1,
    }  # fmt: skip
    for name, value in others.items():
        changed = dataclasses.replace(TWO, **{name: value})  # type: ignore[arg-type]
        assert freeze("card", PINS, [ONE, changed]) != before, name


def test_a_version_of_a_checklist_changes_the_hash() -> None:
    changed = [PINS[0], PinnedChecklist("a", 3, "aa")]
    assert freeze("card", PINS, [ONE]) != freeze("card", changed, [ONE])
