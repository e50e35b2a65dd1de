"""A small folder of knowledge without a mistake, for tests that put one in."""

from pathlib import Path

from baycard.checklists.load import read_book
from baycard.checklists.problems import Problem

FILES = {
    "units.yaml": """\
prefixes:
  - {code: m, factor: "1/1000", says: milli, source: SI}
  - {code: k, factor: "1000", says: kilo, source: SI}
atoms:
  - {code: m, factor: "1", dim: {m: 1}, metric: true, says: metre, source: SI}
  - {code: s, factor: "1", dim: {s: 1}, metric: true, says: second, source: SI}
  - {code: Pa, factor: "1", dim: {m: -1, kg: 1, s: -2}, metric: true, says: pascal, source: SI}
  - {code: deg, factor: "0.0175", dim: {rad: 1}, metric: false, says: degree, source: UCUM}
""",
    "instruments.yaml": """\
instruments:
  - {id: dial, title: Dial, unit: mm, resolution: 0.01, limit_of_error: 0.01, quantity: length, source: certificate}
  - {id: gauge, title: Gauge, unit: kPa, resolution: 0.1, quantity: pressure, source: certificate}
""",
    "cautions.yaml": """\
cautions:
  - {id: lift, level: danger, title: Lift, says: Look up., source: common practice}
""",
    "places.yaml": """\
stations:
  - {id: left, title: Left side, lift: half}
  - {id: right, title: Right side, lift: half}
  - {id: roof, title: Roof, lift: down}
places:
  - {id: wheel-left, title: Left wheel, station: left, side: left, pair: wheel-right}
  - {id: wheel-right, title: Right wheel, station: right, side: right, pair: wheel-left}
  - {id: roof, title: Roof, station: roof}
""",
    "methods/play.yaml": """\
- id: rock-angle
  says: Angle of the rocking wheel.
  inputs:
    dial: {unit: mm, range: [0, 20], says: reading at the rim}
    radius: {unit: mm, range: [50, 500], default: 200, says: radius of the tip}
  where:
    ratio: dial / radius
  formula: atan(ratio) * 180 / pi
  output: {unit: deg, says: angle}
  source: right triangle
  basis: published
  validity: Small angles.
  examples:
    - id: two-at-two-hundred
      inputs: {dial: {value: 2, unit: mm}}
      expected: {value: 0.573, unit: deg}
      rtol: 0.001
      source: right triangle
      basis: computed
""",
    "checklists/wheels.yaml": """\
id: wheels
version: 1
title: Wheels
why: To find play.
not_instead_of: The yearly test.
cautions: [lift]
tools: [dial]
stations: [left, right]
checks:
  - id: rock
    ask: Does it rock?
    how: [Rock it.]
    plain: We rocked the wheel.
    at: [wheel-left, wheel-right]
    answer:
      kind: choice
      options:
        - {id: "no", label: No, means: in-order}
        - {id: "yes", label: Yes, means: beyond, grade: major, title: Play, plain: The wheel is loose.}
  - id: movement
    ask: How far?
    how: [Read the dial.]
    plain: We measured it.
    at: [wheel-left, wheel-right]
    answer: {kind: number, unit: mm, decimals: 2, range: [0, 20], instruments: [dial]}
    only_if: {check: rock, is: ["yes"]}
    limits:
      - id: too-far
        of: value
        above: 0.1
        unit: mm
        grade: major
        title: Play above the limit
        plain: The wheel is loose.
        source: common practice
        basis: common practice
        applies: All.
  - id: angle
    ask: Which angle?
    how: [Nothing to do.]
    plain: We worked the angle out.
    at: [wheel-left, wheel-right]
    answer:
      kind: worked-out
      method: rock-angle
      unit: deg
      decimals: 2
      inputs:
        dial: {check: movement, take: value}
""",
}


def write_folder(folder: Path, *changes: tuple[str, str, str]) -> Path:
    """The folder, with each change (file, old text, new text) made once."""
    files = dict(FILES)
    for file, old, new in changes:
        assert old in files[file], f"{old!r} is not in {file}"
        files[file] = files[file].replace(old, new, 1)
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return folder


def problems_of(folder: Path, *changes: tuple[str, str, str]) -> list[Problem]:
    """What the loader finds in the changed folder."""
    _, problems = read_book(write_folder(folder, *changes))
    return list(problems)
