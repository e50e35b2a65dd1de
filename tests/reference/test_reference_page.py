"""The reference page in docs/ is the one that the knowledge of today gives."""

import re
from pathlib import Path

from baycard.checklists.load import load_book
from baycard.checklists.reference_page import reference_page
from baycard.checklists.seed import seed_folder

PAGE = Path(__file__).parents[2] / "docs" / "reference.md"


def test_the_reference_page_is_up_to_date() -> None:
    page = reference_page(load_book(seed_folder()))
    assert PAGE.read_text("utf-8") == page, "write it again: baycard checklist reference > docs/reference.md"


def test_every_method_and_limit_is_on_the_page() -> None:
    book = load_book(seed_folder())
    page = reference_page(book)
    assert all(f"### {id}\n" in page for id in book.methods)
    limits = [limit for checklist in book.checklists for check in checklist.checks for limit in check.limits]
    assert all(limit.title.replace("|", "\\|") in page for limit in limits)


def test_the_index_by_job_names_only_methods_of_the_book() -> None:
    page = (PAGE.parent / "methods-by-job.md").read_text("utf-8")
    named = set(re.findall(r"`([a-z0-9-]+)`[,| ]", page))
    assert named - set(load_book(seed_folder()).methods) == set()
    assert len(named) > 150
