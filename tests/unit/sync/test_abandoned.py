"""What becomes of uploads that nobody goes on with, by the times of real files."""

import os
from pathlib import Path

from baycard.store.blob_folder import BlobFolder
from baycard.sync.abandoned import ABANDONED_AFTER_S, DAY_S, Abandoned

NOW_S = 1_795_608_000.0


def a_part(folder: BlobFolder, name: str, age_s: float) -> Path:
    with folder.open_part("tern", name, 10) as file:
        file.write(b"12345")
    path = folder.root / "tern" / "parts" / f"{name}.10"
    os.utime(path, (NOW_S - age_s, NOW_S - age_s))
    return path


def test_parts_are_looked_through_at_the_start_and_once_a_day(tmp_path: Path) -> None:
    folder, clock = BlobFolder(tmp_path), [NOW_S]
    abandoned = Abandoned(folder, lambda: clock[0])
    old, young = a_part(folder, "ab", ABANDONED_AFTER_S + 1), a_part(folder, "cd", ABANDONED_AFTER_S - 1)
    assert abandoned.sweep() == 1
    assert (old.exists(), young.exists()) == (False, True)
    clock[0] += DAY_S - 1
    assert abandoned.sweep() == 0
    assert young.exists()
    clock[0] += 1
    assert abandoned.sweep() == 1
    assert not young.exists()


def test_a_clock_that_is_put_back_does_not_end_the_looking(tmp_path: Path) -> None:
    folder, clock = BlobFolder(tmp_path), [NOW_S + 365 * DAY_S]
    abandoned = Abandoned(folder, lambda: clock[0])
    abandoned.sweep()
    clock[0] = NOW_S
    a_part(folder, "ab", ABANDONED_AFTER_S + 1)
    assert abandoned.sweep() == 1


def test_a_folder_without_any_part_is_no_trouble(tmp_path: Path) -> None:
    assert Abandoned(BlobFolder(tmp_path / "none"), lambda: NOW_S).sweep() == 0
