"""The same promises over PostgreSQL, for a server beyond one machine."""

import tempfile
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest

from baycard.journal.digest import digest
from baycard.people.admit import add_person, add_workshop
from baycard.settings import Settings
from baycard.store.door import Store, open_store
from baycard.store.migrate import prepare
from baycard.web.app import create_app
from tests.support.postgres import is_installed, running_postgres
from tests.support.server import PEOPLE, SMALL_BOOK, InProcess, secret_of

pytestmark = pytest.mark.skipif(not is_installed(), reason="PostgreSQL is not installed on this machine")


@pytest.fixture(scope="module")
def shared() -> Iterator[tuple[Settings, Store]]:
    """A prepared server with two workshops."""
    # Not below pytest's own folder: that one is closed to the user PostgreSQL runs as.
    with tempfile.TemporaryDirectory(prefix="baycard-pg-") as name, running_postgres(Path(name)) as url:
        settings = Settings(Path(name) / "data", url, news_life_s=0.0)
        store = open_store(url, settings.folder)
        prepare(store)
        for workshop, people in PEOPLE.items():
            made = add_workshop(store, workshop)
            for person, role in people:
                add_person(store, made.id, person, role, secret_of(person))
        yield settings, store
        store.close()


def phone(shared: tuple[Settings, Store], name: str) -> InProcess:
    made = InProcess(create_app(*shared, SMALL_BOOK))
    assert made.enter(name).status == 200
    return made


def test_push_replay_conflict_pull_and_sign_off_work_as_they_do_over_sqlite(shared: tuple[Settings, Store]) -> None:
    ines, ruth, piet = (phone(shared, name) for name in ("Ines Varga", "Ruth Okello", "Piet Gull"))
    card = ines.new_card()
    entries = [card.fact("grün \U0001f527"), card.reading(0.123456789012345), *card.readings(200)]
    assert {result["outcome"] for result in ines.push(entries)} == {"kept"}
    assert {result["outcome"] for result in ines.push(entries)} == {"already-kept"}
    assert ines.push([entries[0] | {"body": {"value": "other"}}])[0]["code"] == "id-conflict"
    came = ruth.pull()["entries"]
    assert [{key: value for key, value in entry.items() if key != "arrival"} for entry in came] == entries
    seen = {"count": len(entries), "digest": digest(entry["id"] for entry in entries), "drive": "yes"}
    signed = ruth.post(f"/api/desk/cards/{card.card}/sign-off", seen).json["entry"]
    assert signed["body"]["revision"] == 1
    assert piet.pulled_ids() == []


def test_four_phones_at_once_leave_no_gap_that_a_pull_could_step_over(shared: tuple[Settings, Store]) -> None:
    phones = [phone(shared, name) for name in ("Fay Gull", "Piet Gull", "Otto Gull", "Fay Gull")]
    reader = phone(shared, "Otto Gull")
    seen: list[int] = []
    done = threading.Event()

    def work(one: InProcess) -> None:
        card = one.new_card()
        for _ in range(10):
            one.push(card.readings(7))

    def read() -> None:
        after = 0
        while True:
            last = done.is_set()
            page = reader.pull(after)
            seen.extend(entry["arrival"] for entry in page["entries"])
            after = page["cursor"]
            if last and not page["entries"]:
                return

    threads = [threading.Thread(target=work, args=(one,)) for one in phones]
    listener = threading.Thread(target=read)
    for thread in [*threads, listener]:
        thread.start()
    for thread in threads:
        thread.join()
    done.set()
    listener.join()
    assert seen == list(range(1, 281))
