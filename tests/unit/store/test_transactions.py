"""The promise of a transaction: all of it or nothing, and numbers in the order of commits."""

import json
import threading
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sqlalchemy import event, text
from sqlalchemy.exc import IntegrityError

from baycard.store.blob_folder import BlobFolder
from baycard.store.door import Store, open_store, sqlite_url
from baycard.store.entries import add_cards, body_text
from baycard.store.migrate import prepare
from baycard.store.values import Workshop
from baycard.store.workshops import add_workshop, hold_counter, last_arrival, move_counter, workshops


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    made = open_store(sqlite_url(tmp_path), tmp_path)
    prepare(made)
    with made.write() as tx:
        add_workshop(tx, Workshop("tern", "Tern Street Garage", "metric"))
        add_workshop(tx, Workshop("gull", "Gull Lane Motors", "us"))
    yield made
    made.close()


def test_a_block_that_raises_leaves_nothing_of_what_it_did(store: Store) -> None:
    with pytest.raises(ZeroDivisionError), store.write() as tx:
        add_workshop(tx, Workshop("third", "Third", "metric"))
        raise ZeroDivisionError
    with store.read() as tx:
        assert len(workshops(tx)) == 2


def test_the_database_is_safe_against_power_cuts_and_dangling_rows(store: Store) -> None:
    with store.read() as tx:
        said = [tx.execute(text(f"PRAGMA {name}")).scalar() for name in ("journal_mode", "synchronous", "foreign_keys")]
    assert said == ["wal", 2, 1]
    with pytest.raises(IntegrityError), store.write() as tx:
        add_cards(tx, "no such workshop", ["card"])


def test_two_who_push_at_once_get_numbers_one_after_the_other(store: Store) -> None:
    taken: list[int] = []

    def take() -> None:
        for _ in range(25):
            with store.write() as tx:
                arrival = hold_counter(tx, "tern") + 1
                move_counter(tx, "tern", arrival)
            taken.append(arrival)

    threads = [threading.Thread(target=take) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sorted(taken) == list(range(1, 101))
    with store.read() as tx:
        assert (last_arrival(tx, "tern"), last_arrival(tx, "gull")) == (100, 0)


def test_writers_of_one_process_wait_for_each_other_without_asking_sqlite_to_wait(store: Store) -> None:
    store.engine.dispose()
    event.listen(store.engine, "connect", lambda connection, _: connection.execute("PRAGMA busy_timeout=0"))

    def take(_: int) -> None:
        with store.write() as tx:
            move_counter(tx, "tern", hold_counter(tx, "tern") + 1)

    with ThreadPoolExecutor(8) as pool:
        list(pool.map(take, range(200)))
    with store.read() as tx:
        assert last_arrival(tx, "tern") == 200


@pytest.mark.parametrize("body", [{"value": float("nan")}, {"value": float("inf")}, {"value": "\ud800"}])
def test_a_body_that_is_not_json_is_not_written(body: object) -> None:
    with pytest.raises(ValueError, match=r"JSON compliant|surrogates"):
        body_text(body)


WORDS = st.text(st.characters(exclude_categories=["Cs"]))
VALUES = st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False, allow_infinity=False) | WORDS
BODIES = st.dictionaries(WORDS, st.recursive(VALUES, lambda inner: st.lists(inner) | st.dictionaries(WORDS, inner)))


@given(BODIES)
def test_a_body_is_written_as_python_writes_json(body: object) -> None:
    assert body_text(body) == json.dumps(body, ensure_ascii=False, separators=(",", ":"))


def test_a_partial_file_of_another_promised_length_is_begun_anew(tmp_path: Path) -> None:
    folder = BlobFolder(tmp_path)
    with folder.open_part("tern", "ab", 10) as file:
        file.write(b"12345")
    assert folder.part("tern", "ab") == (5, 10)
    with folder.open_part("tern", "ab", 20) as file:
        file.write(b"1")
    assert folder.part("tern", "ab") == (1, 20)
    folder.drop_part("tern", "ab")
    assert folder.part("tern", "ab") is None


def test_a_file_that_is_kept_is_there_in_full_under_its_name(tmp_path: Path) -> None:
    folder = BlobFolder(tmp_path)
    folder.keep("tern", "abcd", b"data")
    folder.keep("tern", "abcd", b"small", "print")
    assert folder.path("tern", "abcd").read_bytes() == b"data"
    assert folder.path("tern", "abcd", "print").read_bytes() == b"small"
    assert not list(tmp_path.rglob("*.draft"))
