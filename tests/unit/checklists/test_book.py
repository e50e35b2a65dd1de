"""The book: compiled the same every time, read back the same, and refused as a whole with every problem."""

import hashlib
import json
from pathlib import Path

import pytest
import rfc8785

from baycard.checklists.from_json import book_from_json, to_json
from baycard.checklists.load import load_book
from baycard.checklists.problems import BookError
from baycard.checklists.seed import seed_folder
from baycard.checklists.types import CheckSource, OnlyIf, WorkedOutAnswer
from baycard.checklists.versions import changed_after_publishing, not_yet_published
from tests.unit.checklists.small_folder import write_folder

FILE = "checklists/wheels.yaml"


def test_the_seed_knowledge_has_no_mistake() -> None:
    book = load_book(seed_folder())
    assert len(book.methods) > 150
    assert book.checklists


def test_the_seed_folder_of_a_checkout_is_found() -> None:
    assert (seed_folder() / "units.yaml").is_file()


def test_a_book_survives_json() -> None:
    book = load_book(seed_folder())
    assert book_from_json(json.loads(json.dumps(to_json(book)))) == book


def test_hashes_are_over_the_canonical_json_without_themselves(tmp_path: Path) -> None:
    data = to_json(load_book(write_folder(tmp_path)))
    for part in (data, data["checklists"][0]):
        content = {key: value for key, value in part.items() if key != "sha256"}
        assert part["sha256"] == hashlib.sha256(rfc8785.dumps(content)).hexdigest()


def test_the_hash_of_a_checklist_changes_with_its_content_only(tmp_path: Path) -> None:
    first = load_book(write_folder(tmp_path / "a")).checklists[0].sha256
    spaced = load_book(write_folder(tmp_path / "b", (FILE, "title: Wheels", "title:   Wheels  # a remark"))).checklists[
        0
    ]
    changed = load_book(write_folder(tmp_path / "c", (FILE, "title: Wheels", "title: All wheels"))).checklists[0]
    assert spaced.sha256 == first
    assert changed.sha256 != first


def test_keys_that_may_be_left_out_are_as_the_contract_has_them(tmp_path: Path) -> None:
    check = to_json(load_book(write_folder(tmp_path)))["checklists"][0]["checks"][0]
    assert (check["photo"], check["if_failed"], check["only_if"]) == (None, None, None)
    assert (check["limits"], check["cautions"]) == ([], [])
    assert "grade" not in check["answer"]["options"][0]


def test_values_are_typed(tmp_path: Path) -> None:
    book = load_book(write_folder(tmp_path))
    checklist = book.checklist("wheels", 1)
    assert checklist is not None
    movement, angle = checklist.check("movement"), checklist.check("angle")
    assert movement is not None and movement.only_if == OnlyIf("rock", ("yes",))
    assert angle is not None and isinstance(angle.answer, WorkedOutAnswer)
    assert angle.answer.inputs == {"dial": CheckSource("movement", "value")}
    assert book.checklist("wheels", 2) is None
    assert checklist.check("no-such") is None


def test_a_formula_becomes_a_tree_with_its_intermediate_results(tmp_path: Path) -> None:
    tree = load_book(write_folder(tmp_path)).methods["rock-angle"].tree
    assert tree is not None
    assert tree[:3] == ["let", "ratio", ["div", ["in", "dial"], ["in", "radius"]]]


def test_a_folder_with_mistakes_makes_no_book(tmp_path: Path) -> None:
    with pytest.raises(BookError) as caught:
        load_book(write_folder(tmp_path, (FILE, "above: 0.1", "above: wide"), (FILE, "grade: major, ", "")))
    assert len(caught.value.problems) == 2
    assert str(caught.value).count("\n") == 1


def test_a_published_version_may_not_change(tmp_path: Path) -> None:
    book = load_book(write_folder(tmp_path))
    published = {("wheels", 1): "0" * 64}
    (problem,) = changed_after_publishing(book.checklists, published)
    assert problem.says == "version 1 of wheels is published and its content has changed since"
    assert problem.suggestion.startswith("raise the version to 2")


def test_a_published_version_that_is_the_same_and_a_new_one_are_fine(tmp_path: Path) -> None:
    checklists = load_book(write_folder(tmp_path)).checklists
    same = {("wheels", 1): checklists[0].sha256}
    assert changed_after_publishing(checklists, same) == []
    assert not_yet_published(checklists, same) == []
    assert not_yet_published(checklists, {}) == list(checklists)
