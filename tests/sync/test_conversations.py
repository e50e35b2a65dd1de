"""Two people, one car: short conversations in which nobody's work is overwritten."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from baycard.journal.entry import entry_from_json
from baycard.journal.standing import disagreements, standing
from tests.support.server import InProcess, World, furnish
from tests.sync.oracle import naive_standing

SLOT = "bearing-play/rim-movement/rear-left/1"


@pytest.fixture
def world(tmp_path: Path) -> Iterator[World]:
    furnish(tmp_path)
    made = World(tmp_path)
    yield made
    made.store.close()


@pytest.fixture
def ines(world: World) -> InProcess:
    return world.sign_in("Ines Varga")


@pytest.fixture
def ruth(world: World) -> InProcess:
    return world.sign_in("Ruth Okello")


def what_stands(reader: InProcess, slot: str = SLOT) -> list[Any]:
    """The bodies that stand in a slot, as the desk computes it; the naive model must say the same."""
    came = reader.pull()["entries"]
    stand = standing(entry_from_json(entry) for entry in came)
    naive = naive_standing(came)
    assert {slot: [entry.id for entry in entries] for slot, entries in stand.items()} == {
        slot: sorted(ids) for (_, slot), ids in naive.items()
    }
    assert disagreements(stand) == sorted(slot for (_, slot), ids in naive.items() if len(ids) > 1)
    return [entry.body for entry in stand.get(slot, ())]


def test_technician_and_foreman_who_edit_the_same_reading_apart_both_stand_until_one_settles_it(
    ines: InProcess, ruth: InProcess
) -> None:
    card = ines.new_card()
    first = card.reading(0.12)
    ines.push([first])
    hers = card.reading(0.30, replaces=(first["id"],))
    theirs = card.reading(0.50, replaces=(first["id"],)) | {"author": ruth.person, "device": ruth.device}
    ines.push([hers])
    ruth.push([theirs])
    assert [body["value"] for body in what_stands(ruth)] == [0.30, 0.50]
    settled = card.reading(0.40, replaces=(hers["id"], theirs["id"])) | {"author": ruth.person, "device": ruth.device}
    ruth.push([settled])
    assert [body["value"] for body in what_stands(ines)] == [0.40]


def test_a_reading_taken_back_by_one_and_corrected_by_another_is_neither_gone_nor_back_by_itself(
    ines: InProcess, ruth: InProcess
) -> None:
    card = ines.new_card()
    first = card.reading(0.12)
    ines.push([first])
    gone = card.entry("retraction", SLOT, {}, (first["id"],))
    edit = card.reading(0.31, replaces=(first["id"],)) | {"author": ruth.person, "device": ruth.device}
    ines.push([gone])
    ruth.push([edit])
    assert what_stands(ruth) == [{}, edit["body"]]
    ruth.push([card.entry("retraction", SLOT, {}, (gone["id"], edit["id"]))])
    ruth.push([edit])
    assert what_stands(ines) == [{}], "what was taken back comes back only by a new entry"


def test_two_phones_on_one_car_keep_the_photos_and_readings_of_both(world: World, ines: InProcess) -> None:
    tom = world.sign_in("Tom Abara")
    card = ines.new_card()
    mine = [card.photo("a" * 64), card.reading(0.1, "rear-left")]
    yours = [
        entry | {"author": tom.person, "device": tom.device}
        for entry in (card.photo("b" * 64), card.reading(0.2, "rear-right"))
    ]
    ines.push(mine)
    tom.push(yours)
    came = world.sign_in("Ruth Okello").pull()["entries"]
    assert {entry["id"] for entry in came} == {entry["id"] for entry in [*mine, *yours]}
    assert disagreements(standing(entry_from_json(entry) for entry in came)) == []


def test_the_phones_clock_has_no_say_in_what_stands(ines: InProcess, ruth: InProcess) -> None:
    card = ines.new_card()
    first = card.reading(0.12, made_at="2031-01-01T00:00:00.000Z")
    later = card.reading(0.90, replaces=(first["id"],), made_at="1970-01-01T00:00:00.000Z")
    ines.push([first])
    ines.push([later])
    assert [body["value"] for body in what_stands(ruth)] == [0.90]
