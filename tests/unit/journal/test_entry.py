"""A new entry carries who, where and when, from what it was handed."""

from baycard.journal.entry import EntryContext, entry_to_json, iso_time, new_entry


def test_a_new_entry_takes_its_id_and_time_from_the_clock_and_bytes_it_was_handed() -> None:
    context = EntryContext("card-id", "ines", "phone-1", lambda: 1_795_166_043_120, bytes)
    entry = new_entry("complaint", "card/complaint/x", {"words": "hum"}, ["a", "b"], context)
    assert entry_to_json(entry) == {
        "id": "01a1f83b-fbf0-7000-8000-000000000000",
        "card": "card-id",
        "slot": "card/complaint/x",
        "kind": "complaint",
        "body": {"words": "hum"},
        "replaces": ["a", "b"],
        "author": "ines",
        "device": "phone-1",
        "made_at": "2026-11-20T09:14:03.120Z",
        "format": 1,
    }


def test_times_are_written_in_utc_to_the_millisecond() -> None:
    assert iso_time(0) == "1970-01-01T00:00:00.000Z"
    assert iso_time(1_795_166_043_007) == "2026-11-20T09:14:03.007Z"
