"""How plates look in a workshop: what may be told, and that every phone hears it."""

from pathlib import Path

import pytest

from baycard.cli import main
from baycard.people.plate_forms import checked_forms
from baycard.store.door import open_store, sqlite_url
from baycard.store.workshops import workshops
from tests.support.server import furnish


@pytest.mark.parametrize("form", ["", "A", "AA  99", "AA 99 ", "aa 99", "AA_99", "A9" * 7])
def test_what_is_no_form_is_refused_with_an_example_of_one(form: str) -> None:
    with pytest.raises(ValueError, match="as in 'AA 99 AAA'"):
        checked_forms([form])


def test_forms_are_kept_in_their_order_each_once() -> None:
    assert checked_forms(["AAA 9999", "AA-99 ??", "AAA 9999"]) == ("AAA 9999", "AA-99 ??")
    with pytest.raises(ValueError, match="At most 8"):
        checked_forms(["AA 99"] * 9)


def test_the_command_sets_them_for_one_workshop_and_leaves_the_others(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    furnish(tmp_path)
    told = ["set-plates", "--workshop", "Tern Street Garage", "--form", "AA 99 AAA", "--data", str(tmp_path)]
    assert main(told) == 0
    assert main(["set-plates", "--workshop", "Nowhere", "--data", str(tmp_path)]) == 1
    assert "no workshop named Nowhere" in capsys.readouterr().err
    store = open_store(sqlite_url(tmp_path), tmp_path)
    with store.read() as tx:
        kept = {shop.name: shop.plate_forms for shop in workshops(tx)}
    store.close()
    assert kept.pop("Tern Street Garage") == ("AA 99 AAA",)
    assert set(kept.values()) == {()}
