"""Prints how each method is proved: python -m tests.reference.coverage.

One line per method: examples run in Python, in TypeScript, and by the kind of source. Python's column counts examples
that give the expected answer here and now; TypeScript's counts the cases of the vectors that the phone's tests run.
"""

import json
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from baycard.checklists.load import load_book
from baycard.checklists.seed import seed_folder
from baycard.checklists.types import Book
from baycard.measure.units import Units
from tests.reference.book_vectors import FILE, vectors
from tests.reference.running import gives_expected

OUTSIDE = {
    "published-read": "published",
    "published-memory": "published, from memory",
    "computed-library": "library",
}
"""Kinds of source from outside; anything else was computed from the formula's own source."""


@dataclass(frozen=True, slots=True)
class Proof:
    """How one method is proved."""

    method: str
    python: int
    typescript: int
    kinds: Mapping[str, int]

    @property
    def outside(self) -> int:
        """Examples whose answer comes from outside."""
        return sum(self.kinds.get(kind, 0) for kind in OUTSIDE.values())


def proofs(book: Book) -> list[Proof]:
    """One for each method, in order of its id."""
    units = Units(book.units)
    cases = vectors(book)["cases"]
    here = Counter(case["method"] for case in cases if gives_expected(case, book, units))
    phone = Counter(case["method"] for case in json.loads(FILE.read_text("utf-8"))["cases"])
    kinds = {
        id: Counter(OUTSIDE.get(one.basis, "own formula") for one in method.examples)
        for id, method in book.methods.items()
    }
    return [Proof(id, here[id], phone[id], kinds[id]) for id in sorted(book.methods)]


def table(found: list[Proof]) -> Iterator[str]:
    """The table, with a line of sums below it."""
    names = [*OUTSIDE.values(), "own formula"]
    width = max(len(one.method) for one in found)
    heads = ["Python", "TypeScript", *names]
    yield "  ".join(["method".ljust(width), *heads])
    for one in found:
        counts = [one.python, one.typescript, *(one.kinds.get(name, 0) for name in names)]
        cells = [str(count or "-").rjust(len(head)) for count, head in zip(counts, heads, strict=True)]
        yield "  ".join([one.method.ljust(width), *cells])
    weak = [one.method for one in found if min(one.python, one.typescript) < 3 or one.outside < 1]
    examples = sum(one.python for one in found)
    outside = sum(one.outside for one in found)
    yield f"{len(found)} methods, {examples} examples in each language, {outside} from outside"
    yield f"below three, or none from outside: {', '.join(weak) or 'none'}"


if __name__ == "__main__":
    print("\n".join(table(proofs(load_book(seed_folder())))))
