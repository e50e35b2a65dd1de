"""Ids sort by their millisecond and carry the version of RFC 9562."""

import uuid

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baycard.journal.uuid7 import uuid7

MOMENTS = st.integers(0, 2**48 - 1)
BYTES = st.binary(min_size=10, max_size=10)


def test_the_example_of_rfc_9562_appendix_a6_comes_out() -> None:
    random_bytes = bytes.fromhex("0cc318c4dc0c0c07398f")
    assert uuid7(0x017F22E279B0, random_bytes) == "017f22e2-79b0-7cc3-98c4-dc0c0c07398f"


@given(MOMENTS, BYTES)
def test_an_id_is_a_uuid_of_version_7_with_its_millisecond_in_front(now_ms: int, random_bytes: bytes) -> None:
    made = uuid.UUID(uuid7(now_ms, random_bytes))
    assert (made.version, made.variant) == (7, uuid.RFC_4122)
    assert made.int >> 80 == now_ms


@given(MOMENTS, MOMENTS, BYTES, BYTES)
def test_ids_sort_by_their_millisecond(one: int, other: int, some: bytes, more: bytes) -> None:
    if one != other:
        assert (uuid7(one, some) < uuid7(other, more)) == (one < other)


@pytest.mark.parametrize("now_ms", [-1, 2**48])
def test_a_clock_outside_48_bits_is_a_bug(now_ms: int) -> None:
    with pytest.raises(ValueError, match="now_ms"):
        uuid7(now_ms, bytes(10))


@pytest.mark.parametrize("count", [0, 9, 11])
def test_too_few_or_too_many_random_bytes_are_a_bug(count: int) -> None:
    with pytest.raises(ValueError, match="10 random bytes"):
        uuid7(0, bytes(count))
