"""Requests that arrive broken, huge or compressed."""

import gzip
import zlib

from tests.support.builders import push_body
from tests.support.server import JSON, InProcess

GZIP = {**JSON, "Content-Encoding": "gzip"}


def test_a_compressed_push_is_taken(ines: InProcess) -> None:
    entries = ines.new_card().readings(50)
    answer = ines.call("POST", "/api/sync/push", gzip.compress(push_body(entries)), GZIP)
    assert answer.status == 200
    assert ines.pulled_ids() == [entry["id"] for entry in entries]


def test_a_small_request_that_would_grow_to_gigabytes_is_refused(ines: InProcess) -> None:
    packer = zlib.compressobj(9, wbits=31)
    bomb = b"".join(packer.compress(b" " * 1_000_000) for _ in range(200)) + packer.flush()
    assert len(bomb) < 400_000
    answer = ines.call("POST", "/api/sync/push", bomb, GZIP)
    assert (answer.status, answer.json["code"]) == (413, "body-too-large")


def test_compressed_bytes_that_were_cut_or_are_none_are_told(ines: InProcess) -> None:
    whole = gzip.compress(push_body(ines.new_card().readings(5)))
    for data in (whole[:-10], whole[:5], b"not gzip", b""):
        answer = ines.call("POST", "/api/sync/push", data, GZIP)
        assert (answer.status, answer.json["code"]) == (400, "bad-encoding")
    answer = ines.call("POST", "/api/sync/push", whole, {**JSON, "Content-Encoding": "br"})
    assert answer.json["code"] == "bad-encoding"
    assert ines.pulled_ids() == []


def test_json_that_was_cut_anywhere_is_refused_whole(ines: InProcess) -> None:
    whole = push_body(ines.new_card().readings(2))
    for end in range(0, len(whole), 37):
        answer = ines.call("POST", "/api/sync/push", whole[:end], JSON)
        assert (answer.status, answer.json["code"]) == (400, "bad-json")
    assert ines.pulled_ids() == []


def test_json_that_only_python_would_read_is_refused(ines: InProcess) -> None:
    for text in ('{"entries": NaN}', '{"entries": [Infinity]}', "[" * 100_000, '{"entries": "\xff"}'):
        answer = ines.call("POST", "/api/sync/push", text.encode("latin-1"), JSON)
        assert (answer.status, answer.json["code"]) == (400, "bad-json")


def test_another_content_type_is_refused_even_if_the_text_is_json(ines: InProcess) -> None:
    for kind in ("text/plain", "application/x-www-form-urlencoded", "multipart/form-data; boundary=x"):
        answer = ines.call("POST", "/api/sync/push", push_body([]), {"Content-Type": kind})
        assert (answer.status, answer.json["code"]) == (415, "not-json")


def test_unknown_members_and_wrong_shapes_are_named(ines: InProcess) -> None:
    values: list[object] = [{"entries": [], "extra": 1}, {"entries": "none"}, {"entries": None}, {}, []]
    for value in values:
        answer = ines.post("/api/sync/push", value)
        assert (answer.status, answer.json["code"]) == (422, "bad-fields"), value
        assert answer.json["fields"]


def test_a_body_beyond_the_limit_is_refused(ines: InProcess) -> None:
    answer = ines.call("POST", "/api/sync/push", b" " * (33 * 1024 * 1024), JSON)
    assert (answer.status, answer.json["code"]) == (413, "body-too-large")
