"""What the bakery's van has: the readings that are not the plain good case, as found and after the work."""

from tests.journeys.technician import Reading

VAN = {
    "Plate": "TS 41 BKR",
    "VIN": "XZCTAD168HT204417",
    "Make": "Corvane",
    "Model": "Tadorna 1.6 D",
    "Year": "2017",
    "Odometer": "164200",
    "Planned use": "Loaded, 900 km and a ferry, leaving on Friday.",
    "Customer's name": "Марта 面包店 مخبز ร้าน 🥐",
    "Customer's e-mail": "bakery@tern-street.example",
}
COMPLAINTS = [
    "Hums from the rear, louder with speed. Гудит сзади.",
    "No pull uphill, with a whistle. صفير عند الصعود",
    "油渍 on the yard, คราบน้ำมัน 🛢️",
]

UNDERBODY = {
    "tyre-shoulder/front-left": Reading(numbers=("1,4", "4,5", "4.6"), accept=True),
    "ball-joint/front-right": Reading(choice="boot", accept=True),
    "floor/under-rear": Reading(skip="No access"),
    "fuel-lines/under-engine": Reading(skip="Other reason…", words="under-tray riveted on, not drilled today"),
    "shields/under-middle": Reading(choice="missing", photo="turned"),
    "modified-parts/vehicle": Reading(words="Tow bar wired with crimped joints, left of the spare wheel."),
}
LEAKS = {
    "level/level-engine-oil": Reading(choice="below-min"),
    "top-up/level-engine-oil": Reading(numbers=("900",)),
    "distance-since-full/level-engine-oil": Reading(numbers=("2500",)),
    "which-fluid/leak-1": Reading(choice="engine-oil", photo="progressive"),
    "from-where/leak-1": Reading(words="Rear edge of the sump, highest wet point at the joint", photo="turned"),
    "cleaned/leak-1": Reading(choice="same-point"),
    "grade-of-wetness/leak-1": Reading(choice="drips", accept=True),
    "drip-count/leak-1": Reading(count=6),
    "pool-wait/leak-1": Reading(samples=("80", "80"), accept=True),
    "pool-width/leak-1": Reading(numbers=("60",)),
    "which-fluid/leak-2": Reading(choice="no-more"),
    "which-fluid/leak-3": Reading(choice="no-more"),
}
TIGHT_RUN = ("20,0", "19.9", "19.9", "19.8", "19.8", "19.7", "19.7")
LEAKY_RUN = ("20,0", "16.1", "13.0", "10.4", "8.4", "6.7", "5.4")
PRESSURE = {
    "system-volume": Reading(numbers=("14",)),
    "ambient-pressure": Reading(numbers=("101.3",)),
    "test-pressure": Reading(numbers=("20",)),
    "smoke/joint-cold-hose": Reading(choice="stream", photo="turned", accept=True),
    "temperature-start": Reading(numbers=("21",)),
    "pressure-run": Reading(samples=LEAKY_RUN),
    "temperature-end": Reading(numbers=("21",)),
    "suspect-joint/suspect-1": Reading(choice="cold-hose"),
    "suspect-run/suspect-1": Reading(samples=TIGHT_RUN),
    "suspect-verdict/suspect-1": Reading(choice="found"),
    "suspect-joint/suspect-2": Reading(choice="no-more"),
    "suspect-joint/suspect-3": Reading(choice="no-more"),
}
BEARINGS = {
    "dial-radius": Reading(numbers=("205",)),
    "hub-temperature": Reading(numbers=("38",)),
    "hub-temperature/rear-left": Reading(numbers=("71",)),
    "rock-12-6/rear-left": Reading(choice="clear", accept=True),
    "rim-movement": Reading(numbers=("0.05",)),
    "rim-movement/rear-left": Reading(numbers=("0,61", "0,64", "0,62"), photo="turned"),
    "spin-noise/rear-left": Reading(choice="rumble", accept=True),
    "roughness/rear-left": Reading(choice="rough", accept=True),
}
BEARINGS_AFTER = {
    "hub-temperature": Reading(numbers=("36",)),
    "rim-movement": Reading(numbers=("0.04",)),
}
PRESSURE_AFTER = {
    "test-pressure": Reading(numbers=("20",)),
    "temperature-start": Reading(numbers=("20",)),
    "pressure-run": Reading(samples=TIGHT_RUN),
    "temperature-end": Reading(numbers=("20",)),
}
