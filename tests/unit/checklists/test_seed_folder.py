"""The knowledge that comes with Baycard is found in a checkout and in an installed package."""

from pathlib import Path

import pytest

from baycard.checklists import seed
from tests.unit.checklists.small_folder import write_folder


def test_an_installed_package_carries_it_inside(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    inside = write_folder(tmp_path / "site-packages" / "baycard" / "seed_checklists")
    monkeypatch.setattr(seed, "PACKAGE", inside.parent)
    assert seed.seed_folder() == inside


def test_a_checkout_carries_it_beside_the_package(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    beside = write_folder(tmp_path / "seed_checklists")
    monkeypatch.setattr(seed, "PACKAGE", tmp_path / "baycard")
    assert seed.seed_folder() == beside


def test_an_installation_without_it_says_what_to_do(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(seed, "PACKAGE", tmp_path / "baycard")
    with pytest.raises(FileNotFoundError, match="install Baycard again"):
        seed.seed_folder()
