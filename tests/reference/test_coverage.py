"""No method without three worked examples in both languages, one of them from outside."""

from functools import cache

import pytest

from baycard.checklists.load import load_book
from baycard.checklists.seed import seed_folder
from tests.reference.coverage import OUTSIDE, Proof, proofs, table

KNOWN = {*OUTSIDE, "computed-formula", "computed"}


@cache
def found() -> list[Proof]:
    return proofs(load_book(seed_folder()))


@pytest.mark.parametrize("proof", found(), ids=lambda proof: str(proof.method))
def test_a_method_has_three_examples_in_both_languages_and_one_from_outside(proof: Proof) -> None:
    assert proof.python >= 3
    assert proof.typescript >= 3
    assert proof.outside >= 1


def test_every_example_gives_its_answer() -> None:
    assert [
        one.method for one in found() if one.python != one.typescript or one.python != sum(one.kinds.values())
    ] == []


def test_every_basis_of_an_example_is_of_a_known_kind() -> None:
    methods = load_book(seed_folder()).methods.values()
    assert {example.basis for method in methods for example in method.examples} <= KNOWN


def test_the_table_has_a_line_for_every_method() -> None:
    lines = list(table(found()))
    assert len(lines) == len(found()) + 3
    assert lines[-1].endswith("none")
