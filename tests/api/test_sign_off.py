"""Signing a card off: only as it was seen, frozen for good, and told to everybody."""

import hashlib
from typing import Any

import rfc8785

from baycard.journal.digest import digest
from tests.support.builders import CardBuilder, Json
from tests.support.photos import small_clean_jpeg
from tests.support.server import SMALL_BOOK, Answer, InProcess, World


def chosen(card: CardBuilder, **changes: Any) -> Json:
    pinned = SMALL_BOOK["checklists"][0]
    body = {"version": pinned["version"], "sha256": pinned["sha256"]} | changes
    return card.entry("checklist-chosen", f"card/checklist/{pinned['id']}", body)


def sign(who: InProcess, card: CardBuilder, entries: list[Json], **changes: Any) -> Answer:
    ids = [entry["id"] for entry in entries]
    seen = {"count": len(ids), "digest": digest(ids), "drive": "yes", "restrictions": "", "look_again": "", "words": ""}
    return who.post(f"/api/desk/cards/{card.card}/sign-off", seen | changes)


def test_the_sign_off_freezes_exactly_what_was_seen(ines: InProcess, ruth: InProcess) -> None:
    card = ines.new_card()
    entries = [chosen(card), card.fact(), card.reading(), card.handed_in()]
    ines.push(entries)
    entry = sign(ruth, card, entries, drive="with-restrictions", restrictions="Not above 80 km/h.").json["entry"]
    document: Any = {
        "card": card.card,
        "checklists": [{"id": "small-check", "version": 1, "sha256": "c" * 64}],
        "entries": sorted(entries, key=lambda one: str(one["id"])),
    }
    assert entry["body"]["sha256"] == hashlib.sha256(rfc8785.dumps(document)).hexdigest()
    assert (entry["kind"], entry["slot"], entry["author"]) == ("signed-off", "stage", ruth.person)
    assert entry["replaces"] == [entries[3]["id"]]
    assert (entry["body"]["revision"], entry["body"]["arrival"]) == (1, 4)
    assert entry["body"]["restrictions"] == "Not above 80 km/h."


def test_everybody_of_the_workshop_pulls_the_sign_off(world: World, ines: InProcess, ruth: InProcess) -> None:
    card = ines.new_card()
    entries = [card.fact()]
    ines.push(entries)
    signed = sign(ruth, card, entries).json["entry"]
    last = ines.pull()["entries"][-1]
    assert {key: value for key, value in last.items() if key != "arrival"} == signed
    assert signed["id"] not in world.neighbour.pulled_ids()


def test_a_card_that_changed_meanwhile_is_not_signed(ines: InProcess, ruth: InProcess) -> None:
    card = ines.new_card()
    entries = [card.fact()]
    ines.push([*entries, card.reading()])
    answer = sign(ruth, card, entries)
    assert (answer.status, answer.json["code"], answer.json["count"]) == (409, "card-changed", 2)
    assert len(ines.pulled_ids()) == 2


def test_signing_twice_because_the_answer_was_lost_signs_once(ines: InProcess, ruth: InProcess) -> None:
    card = ines.new_card()
    entries = [card.fact()]
    ines.push(entries)
    assert sign(ruth, card, entries).status == 200
    assert sign(ruth, card, entries).json["code"] == "card-changed"
    assert sum(entry["kind"] == "signed-off" for entry in ines.pull()["entries"]) == 1


def test_entries_that_disagree_have_to_be_settled_first(ines: InProcess, tom: InProcess, ruth: InProcess) -> None:
    card = ines.new_card()
    first, second = card.reading(0.1), card.reading(0.3)
    ines.push([first, second])
    answer = sign(ruth, card, [first, second])
    assert (answer.status, answer.json["code"]) == (409, "unsettled")
    assert answer.json["slots"] == [first["slot"]]
    settled = card.reading(0.2, replaces=[first["id"], second["id"]])
    tom.push([settled])
    assert sign(ruth, card, [first, second, settled]).status == 200


def test_two_stages_that_disagree_are_settled_by_signing(ines: InProcess, ruth: InProcess) -> None:
    card = ines.new_card()
    entries = [card.fact(), card.handed_in(), card.handed_in()]
    ines.push(entries)
    signed = sign(ruth, card, entries).json["entry"]
    assert sorted(signed["replaces"]) == sorted(entry["id"] for entry in entries[1:])


def test_a_card_is_not_signed_while_a_photo_it_mentions_is_missing(ines: InProcess, ruth: InProcess) -> None:
    card, data = ines.new_card(), small_clean_jpeg()
    entries = [card.fact(), card.photo(hashlib.sha256(data).hexdigest(), len(data))]
    ines.push(entries)
    answer = sign(ruth, card, entries)
    assert (answer.status, answer.json["code"], answer.json["count"]) == (409, "photos-missing", 1)
    assert answer.json["slots"] == [entries[1]["slot"]]
    assert ines.put(hashlib.sha256(data).hexdigest(), data).status == 201
    assert "without_photos" not in sign(ruth, card, entries, without_photos="not needed").json["entry"]["body"]


def test_a_reason_signs_without_the_photo_and_names_it(ines: InProcess, ruth: InProcess) -> None:
    card = ines.new_card()
    entries = [card.fact(), card.photo("ab" * 32)]
    ines.push(entries)
    assert sign(ruth, card, entries, without_photos="   ").json["code"] == "photos-missing"
    signed = sign(ruth, card, entries, without_photos="The phone fell into the pit.").json["entry"]
    assert signed["body"]["without_photos"] == {"why": "The phone fell into the pit.", "missing": [entries[1]["slot"]]}


def test_a_photo_that_was_taken_back_holds_nothing_up(ines: InProcess, ruth: InProcess) -> None:
    card = ines.new_card()
    photo = card.photo("ab" * 32)
    gone = card.entry("retraction", photo["slot"], {}, (photo["id"],))
    entries = [card.fact(), photo, gone]
    ines.push(entries)
    assert sign(ruth, card, entries).status == 200


def test_a_late_entry_leaves_the_first_revision_alone_and_makes_a_second(ines: InProcess, ruth: InProcess) -> None:
    card = ines.new_card()
    entries = [card.fact()]
    ines.push(entries)
    first = sign(ruth, card, entries).json["entry"]
    late = card.reading()
    ines.push([late])
    second = sign(ruth, card, [*entries, first, late]).json["entry"]
    assert (first["body"]["revision"], second["body"]["revision"]) == (1, 2)
    assert second["replaces"] == [first["id"]]
    assert first["body"]["sha256"] != second["body"]["sha256"]


def test_a_checklist_nobody_published_cannot_be_signed(ines: InProcess, ruth: InProcess) -> None:
    card = ines.new_card()
    entries = [chosen(card, version=7)]
    ines.push(entries)
    assert sign(ruth, card, entries).json["code"] == "unknown-checklist"


def test_an_empty_card_and_a_strange_verdict_are_refused(ines: InProcess, ruth: InProcess) -> None:
    assert sign(ruth, ines.new_card(), []).json["code"] == "empty-card"
    card = ines.new_card()
    entries = [card.fact()]
    ines.push(entries)
    assert sign(ruth, card, entries, drive="maybe").json["code"] == "bad-fields"
    assert sign(ruth, card, entries, count="1").json["code"] == "bad-fields"
