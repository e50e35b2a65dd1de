"""Promises of the demo workshop, filled into a real store through the real doors."""

from collections.abc import Iterator
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path
from random import Random

import pytest
from PIL import Image

from baycard.checklists.load import load_book
from baycard.checklists.seed import seed_folder
from baycard.checklists.types import Book
from baycard.demo.fill import PEOPLE, WORKSHOP, Demo, fill
from baycard.demo.pen import Pen, Staff, Writer, begin
from baycard.demo.pictures import PICTURES, SIZE, picture
from baycard.demo.van import van
from baycard.journal.card import card_state
from baycard.journal.types import CardState
from baycard.measure.codes.vin import check_valid
from baycard.people.sign_in import Session, Wish, sign_in
from baycard.store.blobs import held
from baycard.store.door import Store, open_store, sqlite_url
from baycard.store.entries import entries_of_card
from baycard.store.migrate import prepare
from baycard.store.revisions import revision
from baycard.sync.clean_photo import CleanPhoto, clean_photo

NOW_MS = 1_795_165_200_000
SECRET = "a secret for the demo"


@dataclass(frozen=True, slots=True)
class Filled:
    store: Store
    demo: Demo
    book: Book

    def state(self, name: str) -> CardState:
        with self.store.read() as tx:
            kept = entries_of_card(tx, self.demo.workshop.id, self.demo.cards[name])
        return card_state([line.entry for line in kept], self.book)


@pytest.fixture(scope="module")
def filled(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Filled]:
    folder: Path = tmp_path_factory.mktemp("demo")
    store = open_store(sqlite_url(folder), folder)
    prepare(store)
    book = load_book(seed_folder())
    yield Filled(store, fill(store, book, NOW_MS, Random(1).randbytes, SECRET), book)
    store.close()


def test_everybody_of_the_demo_can_sign_in(filled: Filled) -> None:
    assert filled.demo.workshop.name == WORKSHOP
    chance = Random(2)
    for name, role in PEOPLE:
        session = sign_in(filled.store, Wish(name, SECRET, "test", None), NOW_MS // 1000, chance.randbytes)
        assert isinstance(session, Session)
        assert session.who.person.role == role


def test_the_van_is_being_walked_with_findings_and_open_proposals(filled: Filled) -> None:
    state = filled.state("van")
    assert state.stage.is_ == "walking"
    assert [finding.entry.body["grade"] for finding in state.findings] == ["major", "major", "minor"]
    assert len(state.complaints) == 3
    assert state.proposals
    assert any(checklist.open for checklist in state.checklists)


def test_the_vans_second_rear_bearing_is_too_close_to_call(filled: Filled) -> None:
    outcomes = [one for checklist in filled.state("van").checklists for step in checklist.steps for one in step.rounds]
    assert [one.slot for one in outcomes if one.state == "too-close"] == ["bearing-play/rim-movement/rear-right/1"]


def test_the_estate_lies_on_the_desk_with_one_disagreement(filled: Filled) -> None:
    state = filled.state("estate")
    assert state.stage.is_ == "handed-in"
    assert state.disagreements == ("underbody/tyre-shoulder/rear-right/1",)
    assert {entry.author for entry in state.standing[state.disagreements[0]]} == {
        person.id for person in filled.demo.people[:2]
    }
    assert state.findings[0].entry.body["grade"] == "dangerous"


def test_the_pickup_was_signed_twice_and_measured_again_in_between(filled: Filled) -> None:
    state = filled.state("pickup")
    assert (state.stage.is_, state.stage.changed_since) == ("signed", False)
    with filled.store.read() as tx:
        second = revision(tx, filled.demo.workshop.id, filled.demo.cards["pickup"], 2)
    assert second is not None
    steps = {step.rounds[0].slot: step for checklist in state.checklists for step in checklist.steps}
    rim = steps["bearing-play/rim-movement/front-right/1"]
    assert [outcome.state for outcome in rim.rounds] == ["beyond", "in-order"]
    assert not state.proposals


def test_no_checklist_the_demo_chose_is_missing_from_the_book(filled: Filled) -> None:
    assert all(not filled.state(name).missing_checklists for name in filled.demo.cards)


def test_every_vin_of_the_demo_has_a_valid_check_digit(filled: Filled) -> None:
    for name in filled.demo.cards:
        assert check_valid(str(filled.state(name).facts["vehicle/vin"]["value"])), name


def test_every_photo_of_the_demo_is_held(filled: Filled) -> None:
    for name in filled.demo.cards:
        hashes = [entry.body["blob"] for entry in filled.state(name).photos]
        assert hashes
        with filled.store.read() as tx:
            assert held(tx, filled.demo.workshop.id, hashes) == set(hashes)


@pytest.mark.parametrize("name", PICTURES)
def test_a_drawn_picture_is_clean_and_the_same_every_time(name: str) -> None:
    data = picture(name)
    assert data == picture(name)
    photo = clean_photo(data)
    assert isinstance(photo, CleanPhoto)
    assert not photo.changed
    with Image.open(BytesIO(data)) as image:
        assert image.size == SIZE


def test_a_story_told_twice_has_the_same_entries(filled: Filled) -> None:
    staff = Staff(Writer("a", "1"), Writer("b", "2"), Writer("c", "3"))
    assert van(staff, filled.book, NOW_MS).entries == van(staff, filled.book, NOW_MS).entries


def test_a_checklist_or_limit_the_book_lost_stops_the_demo(filled: Filled) -> None:
    pen = Pen(begin("x", NOW_MS), Writer("a", "1"))
    with pytest.raises(KeyError, match="no checklist"):
        pen.choose(filled.book, "gone")
    with pytest.raises(KeyError, match="no limit or option"):
        pen.accept(filled.book, "bearing-play/rim-movement/rear-left", "gone")
    with pytest.raises(KeyError, match="no check"):
        pen.accept(filled.book, "bearing-play/gone/rear-left", "gone")
