"""What docs/writing-a-checklist.md shows is what the loader takes."""

import re
import shutil
from pathlib import Path

from baycard.checklists.formula import FUNCTIONS
from baycard.checklists.load import load_book
from baycard.checklists.seed import seed_folder

PAGE = (Path(__file__).parents[3] / "docs" / "writing-a-checklist.md").read_text("utf-8")


def test_the_examples_on_the_page_load_without_a_mistake(tmp_path: Path) -> None:
    blocks = re.findall(r"```yaml\n(.*?)```", PAGE, re.DOTALL)
    shutil.copytree(seed_folder(), tmp_path / "own")
    for block in blocks:
        if block.startswith("id: "):
            (tmp_path / "own" / "checklists" / "wiper-blades.yaml").write_text(block, "utf-8")
        if block.startswith("- id: "):
            (tmp_path / "own" / "methods" / "own.yaml").write_text(block, "utf-8")
    book = load_book(tmp_path / "own")
    assert book.checklist("wiper-blades") is not None
    assert "play-angle" in book.methods


def test_every_function_of_formulas_is_named_on_the_page() -> None:
    assert all(re.search(rf"\b{name}\b", PAGE) for name in FUNCTIONS)
