"""Sessions as the store knows them."""

from pathlib import Path

from baycard.people.sign_in import token_hash
from baycard.store.people import device, person
from baycard.store.sessions import add_session, end_sessions_of_device, last_sign_ins
from baycard.store.values import SignedIn, Workshop
from tests.support.server import World, furnish

LATER = 4_000_000_000


def test_of_each_device_the_last_sign_in_is_told_and_none_once_all_have_ended(tmp_path: Path) -> None:
    furnish(tmp_path)
    world = World(tmp_path)
    ines, tom = world.sign_in("Ines Varga"), world.sign_in("Tom Abara")
    with world.store.write() as tx:
        for who, at in ((ines, LATER), (tom, LATER + 2), (ines, LATER + 1)):
            somebody, phone = person(tx, ines.workshop, who.person), device(tx, ines.device)
            assert somebody is not None
            assert phone is not None
            signed_in = SignedIn(somebody, phone, Workshop(ines.workshop, "", "metric"))
            add_session(tx, token_hash(str(at)), signed_in, at, at + 1)
        told = last_sign_ins(tx, ines.workshop)
        assert told[ines.device] == ("Tom Abara", LATER + 2)
        assert told[tom.device][0] == "Tom Abara"
        end_sessions_of_device(tx, ines.device)
        assert ines.device not in last_sign_ins(tx, ines.workshop)
    world.store.close()
