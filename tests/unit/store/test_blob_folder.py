"""Promises of the folder of photos and sounds."""

import os
from pathlib import Path

import pytest

from baycard.store.blob_folder import BlobFolder

NAME = "a" * 64
DATA = b"the bytes of a photo"


@pytest.fixture
def folder(tmp_path: Path) -> BlobFolder:
    made = BlobFolder(tmp_path)
    with made.open_part("shop", NAME, len(DATA)) as file:
        file.write(DATA)
    return made


def names(folder: BlobFolder) -> set[str]:
    return {path.name for path in folder.root.rglob("*") if path.is_file()}


def test_a_part_can_become_the_whole_and_stays_until_it_is_dropped(folder: BlobFolder) -> None:
    assert folder.keep_part("shop", NAME)
    assert folder.path("shop", NAME).read_bytes() == DATA
    assert folder.part("shop", NAME) == (len(DATA), len(DATA))
    folder.drop_part("shop", NAME)
    assert folder.path("shop", NAME).read_bytes() == DATA


def test_a_part_that_became_the_whole_before_a_power_cut_can_do_so_again(folder: BlobFolder) -> None:
    assert folder.keep_part("shop", NAME)
    assert folder.keep_part("shop", NAME)
    assert names(folder) == {NAME, f"{NAME}.{len(DATA)}"}


def test_without_a_part_nothing_becomes_the_whole(folder: BlobFolder) -> None:
    folder.drop_part("shop", NAME)
    assert not folder.keep_part("shop", NAME)
    assert names(folder) == set()


def test_a_folder_that_knows_no_second_names_says_so(folder: BlobFolder, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object) -> None:
        raise PermissionError("no links here")

    monkeypatch.setattr(os, "link", refuse)
    assert not folder.keep_part("shop", NAME)
    assert names(folder) == {f"{NAME}.{len(DATA)}"}
