"""The book as phones get it: trimmed to what they use, in their language, and not twice."""

import json
import shutil
from hashlib import sha256
from pathlib import Path
from typing import Any

import pytest

from baycard.checklists.from_json import book_from_json, to_json
from baycard.checklists.load import load_book
from baycard.checklists.seed import seed_folder
from baycard.checklists.translations import texts_in
from baycard.web.published import publish_book
from tests.api.test_shape import assert_problem
from tests.support.server import SMALL_BOOK, InProcess, World


@pytest.fixture(scope="module")
def whole() -> dict[str, Any]:
    book: dict[str, Any] = to_json(load_book(seed_folder()))
    return book


@pytest.fixture
def phone(template: Path, tmp_path: Path, whole: dict[str, Any]) -> InProcess:
    """A technician of a workshop that works with the whole book."""
    return World(shutil.copytree(template, tmp_path / "data"), book=whole).sign_in("Ines Varga")


def test_phones_get_the_methods_their_checklists_work_with_and_no_worked_examples(
    world: World, whole: dict[str, Any]
) -> None:
    served = json.loads(publish_book(world.store, whole).text)
    answers = [check["answer"] for checklist in whole["checklists"] for check in checklist["checks"]]
    worked_out = {answer["method"] for answer in answers if answer["kind"] == "worked-out"}
    assert set(served["methods"]) == worked_out
    assert all(method["examples"] == [] for method in served["methods"].values())
    assert book_from_json(served).methods.keys() == worked_out, "the report reads the same book"
    without = whole | {"checklists": [SMALL_BOOK["checklists"][0]]}
    assert set(json.loads(publish_book(world.store, without).text)["methods"]) == worked_out, "old cards stay readable"


def test_the_book_comes_in_the_language_asked_for_and_is_the_same_edition(phone: InProcess) -> None:
    english, french = phone.get("/api/book").json, phone.get("/api/book?language=fr").json
    assert (english["language"], french["language"]) == ("en", "fr")
    assert french["sha256"] == english["sha256"]
    for before, after in zip(english["checklists"], french["checklists"], strict=True):
        assert after["title"] == texts_in("fr")[before["title"]]
        assert (after["id"], after["version"], after["sha256"]) == (before["id"], before["version"], before["sha256"])
    pinned = english["checklists"][0]
    one = phone.get(f"/api/checklists/{pinned['id']}/{pinned['version']}?language=fr").json
    assert one == french["checklists"][0]


@pytest.mark.parametrize("language", ["en", "fr"])
def test_the_book_tells_every_sentence_a_finding_may_take_in_whatever_language(
    phone: InProcess, whole: dict[str, Any], language: str
) -> None:
    told = set(phone.get(f"/api/book?language={language}").json["sentences"])
    limit = next(limit for one in whole["checklists"] for check in one["checks"] for limit in check["limits"])
    for sentence in (limit["plain"], texts_in("de")[limit["plain"]], texts_in("es")[limit["plain"]]):
        assert sha256(sentence.encode()).hexdigest()[:8] in told
    assert sha256(b"Somebody wrote this.").hexdigest()[:8] not in told


def test_a_language_the_book_is_not_in_is_refused(phone: InProcess) -> None:
    refused = phone.get("/api/book?language=eo")
    assert refused.status == 422
    assert_problem(refused)
