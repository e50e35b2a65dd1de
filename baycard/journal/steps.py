"""The steps of a checklist in walking order."""

from baycard.checklists.types import Book, Checklist, Place, Station
from baycard.journal.types import Step

UNKNOWN_STATION = Station("", "", "down")


def steps(checklist: Checklist, book: Book) -> tuple[Step, ...]:
    """Every check at each of its places: by the checklist's stations, inside a station by the order of the checks.

    A place that the book no longer has, or that is at none of the stations, comes last under its id; no step is lost.
    """
    stations = {station.id: station for station in book.stations}
    rank = {id: place for place, id in enumerate(checklist.stations)}
    every = []
    for check in checklist.checks:
        for at in check.at:
            place = book.places.get(at) or Place(at, at, "")
            every.append(Step(checklist.id, check, place, stations.get(place.station, UNKNOWN_STATION)))
    return tuple(sorted(every, key=lambda step: rank.get(step.station.id, len(rank))))
