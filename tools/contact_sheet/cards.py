"""Cards that the demo does not have: one with long words, one in Arabic."""

from __future__ import annotations

import json

from playwright.sync_api import BrowserContext

from tests.support.builders import CardBuilder, push_body

LONG_NAME = "Langstreckenlieferwagenhochdachkombinationsfahrzeugaufbau 1.6"
LONG = {
    "vehicle/make": "Corvane",
    "vehicle/model": LONG_NAME,
    "vehicle/plate": "TS 41 BKR LANG 77",
    "vehicle/vin": "XZCTAD168HT204417",
    "customer/name": "Donaudampfschifffahrtsbäckereibetriebsgesellschaft Möwenstraße",
    "card/planned-use": "Geschwindigkeitsbegrenzungsüberwachungsfahrten, beladen, und die Fähre am Freitag.",
}
LONG_COMPLAINT = (
    "Von hinten kommt ein Brummen, das mit der Geschwindigkeit lauter wird und das man bei "
    "Kreisverkehrsdurchfahrten vor allem links hört; bergauf fehlt die Ladeluftkühlerschlauchdichtigkeit, "
    "und es pfeift dabei so laut, dass man die Rückfahrwarneinrichtung nicht mehr hört. " * 3
).strip()
ARABIC = {
    "vehicle/make": "كورفان",
    "vehicle/model": "تادورنا 1.6 D",
    "vehicle/plate": "TS 41 BKR",
    "customer/name": "مخبز شارع النورس",
    "card/planned-use": "رحلة طويلة بالعبّارة يوم الجمعة، 900 km.",
}
ARABIC_COMPLAINTS = ("صوت طنين من الخلف يزداد مع السرعة.", "لا قوة في الصعود مع صفير.")
CHECKLISTS = ("bearing-play", "fluid-leaks", "brakes")


def bring(context: BrowserContext) -> dict[str, str]:
    """Push both through the server's door as whoever is signed in; gives their ids by name."""
    me = context.request.get("/api/people/me").json()
    book = context.request.get("/api/book").json()
    pins = {one["id"]: {"version": one["version"], "sha256": one["sha256"]} for one in book["checklists"]}
    cards: dict[str, str] = {}
    for name, facts, complaints in (("long", LONG, (LONG_COMPLAINT,)), ("arabic", ARABIC, ARABIC_COMPLAINTS)):
        card = CardBuilder(me["person"]["id"], me["device"]["id"])
        entries = [card.fact(value, slot) for slot, value in facts.items()]
        for number, words in enumerate(complaints):
            slot = f"card/complaint/019ab300-0000-7000-8000-00000000000{number}"
            entries.append(card.entry("complaint", slot, {"words": words}))
        entries += [card.entry("checklist-chosen", f"card/checklist/{one}", pins[one]) for one in CHECKLISTS]
        entries.append(card.reading(0.32))
        headers = {"X-Baycard": "1", "Content-Type": "application/json"}
        answer = context.request.post("/api/sync/push", data=push_body(entries), headers=headers)
        refused = [one for one in answer.json()["results"] if one["outcome"] == "refused"]
        assert not refused, json.dumps(refused)
        cards[name] = card.card
    return cards
