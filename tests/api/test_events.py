"""News of arrivals: told at once when what the listener has is not what the server has."""

import dataclasses

import pytest

from baycard.web.parts import KEY, Parts
from tests.support.server import OURS, InProcess, World


@pytest.fixture
def lasting(world: World) -> World:
    """A server whose news last long enough to be heard."""
    parts: Parts = world.app.extensions[KEY]
    settings = dataclasses.replace(parts.settings, news_life_s=5.0)
    world.app.extensions[KEY] = dataclasses.replace(parts, settings=settings)
    return world


def first_news(phone: InProcess, after: int, last_event: str | None = None) -> str:
    headers = OURS if last_event is None else {**OURS, "Last-Event-ID": last_event}
    with phone.client.get(f"/api/events?after={after}", headers=headers) as answer:
        lines = answer.iter_encoded()
        next(lines)  # how soon to ask again
        return next(lines).decode()


def test_a_listener_who_has_all_hears_nothing_and_one_who_lacks_something_hears_at_once(lasting: World) -> None:
    ines = lasting.sign_in("Ines Varga")
    arrival = ines.push([ines.new_card().fact()])[0]["arrival"]
    assert first_news(ines, arrival) == ":\n\n"
    assert first_news(ines, 0) == f'id: {arrival}\ndata: {{"arrival": {arrival}}}\n\n'


def test_a_browser_that_asks_again_goes_on_from_what_it_heard_last(lasting: World) -> None:
    ines = lasting.sign_in("Ines Varga")
    arrival = ines.push([ines.new_card().fact()])[0]["arrival"]
    assert first_news(ines, 0, str(arrival)) == ":\n\n"
    assert first_news(ines, 0, "nonsense").startswith("id: ")


def test_a_listener_of_a_server_that_was_put_back_hears_at_once(lasting: World) -> None:
    ines = lasting.sign_in("Ines Varga")
    arrival = ines.push([ines.new_card().fact()])[0]["arrival"]
    assert first_news(ines, arrival + 500).startswith("id: ")
