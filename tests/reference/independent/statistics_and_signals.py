"""Uncertainty, decisions, signals and bearings: scipy's distributions, Monte Carlo free; numpy's transforms."""

from typing import Any

import numpy as np
from scipy import integrate, optimize, stats

from tests.reference.independent.table import Q, rows

FIT = "scipy.stats.linregress"
RSS = "numpy.linalg.norm"
GAMMA = "scipy.stats.gamma and norm, scipy.integrate.quad"
KINEMATICS = "rolling without slip from the velocities of the two races (pint)"


def _fit(x: Any, y: Any) -> Any:
    return stats.linregress(x.m, y.m)


def _accepted(shape: float, scale: float, limit: float, u: float, guard: float) -> float:
    def density(value: float) -> float:
        return float(stats.gamma.pdf(value, shape, scale=scale) * stats.norm.cdf(limit - guard, value, u))

    return float(integrate.quad(density, limit, limit + 15 * u + abs(guard), epsabs=1e-13)[0])


def _guard(shape: Any, scale: Any, TU: Any, u: Any, target: Any) -> Any:
    found = optimize.brentq(lambda g: _accepted(shape.m, scale.m, TU.m, u.m, g) - target.m, 0, 20 * u.m, xtol=1e-12)
    return Q(float(found), "um")


def _reject(limit: Any, u_rel: Any, p: Any) -> Any:
    over = lambda y: stats.norm.sf(limit.m, y, u_rel.to("").m * y) - p.m  # noqa: E731
    return Q(float(optimize.brentq(over, limit.m, 2 * limit.m, xtol=1e-12)), "km/h")


def _rolling(d: Any, D: Any, contact_angle: Any, f: Any) -> tuple[Any, Any]:
    """Frequencies of cage and ball: the ball's middle has the mean of the speeds of the points it touches."""
    along = d * np.cos(contact_angle.to("radian").m)
    inner_speed = np.pi * (D - along) * f
    cage = inner_speed / 2 / (np.pi * D)
    ball = (cage * np.pi * (D + along)) / (np.pi * d)
    return cage, ball


def _strike(**geometry: Any) -> Any:
    return 2 * _rolling(**geometry)[1]


def _amplitude(samples: Any, times: Any, frequency: Any) -> Any:
    turns = np.exp(-2j * np.pi * frequency.to("Hz").m * times.to("s").m)
    return Q(float(2 * abs(np.vdot(turns.conj(), samples.m)) / len(samples)), "m/s**2")


def _decision(y: Any, r: Any, U: Any, TL: Any) -> str:
    """ILAC-G8 4.2.3 by the distance to the lower limit in units of the guard band."""
    return ("fail", "conditional fail", "conditional pass", "pass")[
        int(np.searchsorted([-1, 0, 1], ((y - TL) / (r * U)).to("").m, side="right"))
    ]


def wave(tone: float) -> str:
    """Ten samples a cycle of two tones, as text."""
    at = np.arange(20) / 1000
    values = 2 * np.sin(2 * np.pi * 100 * at) + tone * np.cos(2 * np.pi * 200 * at)
    return "[" + ", ".join(f"{one:.6f}" for one in values) + "]"


TIMES = "[" + ", ".join(f"{n / 1000:.3f}" for n in range(20)) + "]"
FIVE, FOUR = "readings [0.12, 0.13, 0.11, 0.12, 0.14] mm", "readings [12.61, 12.63, 12.6, 12.62] V"
LINE = ("x [1, 2, 3, 4] mm; y [2.1, 3.9, 6.2, 7.8] mm", "x [0, 10, 20, 30, 40] s; y [20, 19.1, 18.3, 17.2, 16.4] s")
BALLS = ("d 12 mm; D 62 mm; contact_angle 0 deg; f 10 Hz", "d 0.5 [in_i]; D 65 mm; contact_angle 15 deg; f 13 Hz")
UNCERTAINTY = [
    *rows(
        "type-b-rectangular",
        "mm",
        "scipy.stats.uniform.std",
        lambda half_width: Q(float(stats.uniform.std(-half_width.m, 2 * half_width.m)), "mm"),
        "half_width 0.05 mm",
        "half_width 0.2 mm",
    ),
    *rows(
        "type-b-triangular",
        "mm",
        "scipy.stats.triang.std",
        lambda half_width: Q(float(stats.triang.std(0.5, -half_width.m, 2 * half_width.m)), "mm"),
        "half_width 0.05 mm",
        "half_width 0.2 mm",
    ),
    *rows("type-b-certificate", "mm", "pint", lambda U, k: U / k, "U 0.006 mm; k 2", "U 0.05 mm; k 1.96"),
    *rows(
        "type-a-single-reading",
        "mm",
        "numpy.std, ddof=1",
        lambda readings: Q(float(np.std(readings.m, ddof=1)), "mm"),
        FIVE,
    ),
    *rows(
        "type-a-single-reading",
        "V",
        "numpy.std, ddof=1",
        lambda readings: Q(float(np.std(readings.m, ddof=1)), "V"),
        FOUR,
    ),
    *rows("type-a-mean", "mm", "scipy.stats.sem", lambda readings: Q(float(stats.sem(readings.m)), "mm"), FIVE),
    *rows("type-a-mean", "V", "scipy.stats.sem", lambda readings: Q(float(stats.sem(readings.m)), "V"), FOUR),
    *rows(
        "combined-uncertainty-rss",
        "mm",
        RSS,
        lambda components: Q(float(np.linalg.norm(components.m)), "mm"),
        "components [0.003, 0.0058, 0.001] mm",
    ),
    *rows(
        "welch-satterthwaite",
        "1",
        "numpy.reciprocal of the weighted mean",
        lambda uc, u, dof: float(np.reciprocal(np.dot((u.m / uc.m) ** 4, 1 / dof.m))),
        "uc 0.0050 mm; u [0.003, 0.004] mm; dof [4, 9]",
        "uc 0.0070 V; u [0.002, 0.006, 0.003] V; dof [9, 4, 50]",
    ),
    *rows(
        "coverage-factor-t",
        "1",
        "scipy.stats.t.ppf",
        lambda p, dof: float(stats.t.ppf((1 + p.m) / 2, dof.m)),
        "p 0.95; dof 4",
        "p 0.9545; dof 10",
        "p 0.99; dof 2.5",
    ),
    *rows("expanded-uncertainty", "mm", "pint", lambda k, u: k * u, "k 2.87; u 0.006 mm"),
    *rows("linear-fit-slope", "1", FIT, lambda x, y: float(_fit(x, y).slope), *LINE),
    *rows("linear-fit-intercept", "mm", FIT, lambda x, y: Q(float(_fit(x, y).intercept), "mm"), LINE[0]),
    *rows("linear-fit-intercept", "s", FIT, lambda x, y: Q(float(_fit(x, y).intercept), "s"), LINE[1]),
    *rows("linear-fit-slope-uncertainty", "1", FIT, lambda x, y: float(_fit(x, y).stderr), *LINE),
    *rows(
        "linear-fit-intercept-uncertainty", "mm", FIT, lambda x, y: Q(float(_fit(x, y).intercept_stderr), "mm"), LINE[0]
    ),
    *rows(
        "linear-fit-intercept-uncertainty", "s", FIT, lambda x, y: Q(float(_fit(x, y).intercept_stderr), "s"), LINE[1]
    ),
    *rows(
        "propagate-difference-of-squares-first-order",
        "1",
        RSS,
        lambda x1, u1, x2, u2: float(np.linalg.norm([2 * x1.m * u1.m, 2 * x2.m * u2.m])),
        "x1 0.3; u1 0.01; x2 0.2; u2 0.02",
        "x1 5; u1 0.1; x2 3; u2 0.2",
    ),
    *rows(
        "propagate-difference-of-squares-second-order",
        "1",
        "variance of a squared normal (scipy.stats.ncx2)",
        lambda x1, u1, x2, u2: float(
            np.sqrt(stats.ncx2.var(1, (x1.m / u1.m) ** 2) * u1.m**4 + stats.ncx2.var(1, (x2.m / u2.m) ** 2) * u2.m**4)
        ),
        "x1 0.3; u1 0.01; x2 0.2; u2 0.02",
        "x1 5; u1 0.1; x2 3; u2 0.2",
    ),
]
DECISIONS = [
    *rows(
        "acceptance-limit-upper",
        "mm",
        "pint",
        lambda TU, r, U: TU - r * U,
        "TU 0.1 mm; r 1; U 0.02 mm",
        "TU 0.05 mm; r 0.5; U 0.008 mm",
    ),
    *rows("acceptance-limit-lower", "mm", "pint", lambda TL, r, U: TL + r * U, "TL 1.6 mm; r 1; U 0.1 mm"),
    *rows(
        "decision-binary-guard-band",
        "{text}",
        "numpy.searchsorted over the guard band",
        lambda **given: "pass" if _decision(**given) == "pass" else "fail",
        "y 1.75 mm; r 1; U 0.1 mm; TL 1.6 mm",
        "y 1.65 mm; r 1; U 0.1 mm; TL 1.6 mm",
    ),
    *rows(
        "decision-nonbinary-guard-band",
        "{text}",
        "numpy.searchsorted over the guard band",
        _decision,
        "y 1.75 mm; r 1; U 0.1 mm; TL 1.6 mm",
        "y 1.65 mm; r 1; U 0.1 mm; TL 1.6 mm",
        "y 1.45 mm; r 1; U 0.1 mm; TL 1.6 mm",
    ),
    *rows(
        "false-accept-probability-at-limit",
        "1",
        "scipy.stats.norm.sf",
        lambda r, k: float(stats.norm.sf(r.m * k.m)),
        "r 0.5; k 2",
        "r 1; k 1.645",
    ),
    *rows(
        "guard-band-multiplier-for-risk",
        "1",
        "scipy.stats.norm.isf",
        lambda risk, k: float(stats.norm.isf(risk.m) / k.m),
        "risk 0.05; k 2",
        "risk 0.01; k 2",
    ),
    *rows(
        "rejection-limit-relative-uncertainty",
        "km/h",
        "scipy.optimize.brentq over scipy.stats.norm.sf",
        _reject,
        "limit 50 km/h; u_rel 1.5 %; p 0.99",
        "limit 130 km/h; u_rel 2 %; p 0.95",
    ),
    *rows(
        "gamma-out-of-tolerance",
        "1",
        GAMMA,
        lambda shape, scale, TU: float(stats.gamma.sf(TU.m, shape.m, scale=scale.m)),
        "shape 3; scale 0.4 um; TU 2.5 um",
        "shape 2.5; scale 1 um; TU 6 um",
    ),
    *rows(
        "global-false-accept-risk-gamma",
        "1",
        GAMMA,
        lambda shape, scale, TU, u, guard: _accepted(shape.m, scale.m, TU.m, u.m, guard.m),
        "shape 3; scale 0.4 um; TU 2.5 um; u 0.2 um; guard 0 um",
        "shape 4; scale 0.25 um; TU 2 um; u 0.25 um; guard 0.2 um",
        rtol=1e-6,
    ),
    *rows(
        "guard-band-for-global-risk-gamma",
        "um",
        GAMMA,
        _guard,
        "shape 3; scale 0.4 um; TU 2.5 um; u 0.2 um; target 0.001",
        "shape 4; scale 0.25 um; TU 2 um; u 0.25 um; target 0.002",
        rtol=1e-5,
    ),
]
SIGNALS = [
    *rows("bearing-rolling-element-defect-frequency", "Hz", KINEMATICS, _strike, *BALLS),
    *rows(
        "sound-level",
        "{dB}",
        "numpy.var of samples about nought",
        lambda samples, reference: float(10 * np.log10(np.vdot(samples.m, samples.m) / len(samples) / reference.m**2)),
        "samples [0.1, -0.1, 0.1, -0.1]; reference 1",
        "samples [0.5, 0.1, -0.3, -0.4, 0.2]; reference 1",
        "samples [0.02, -0.05, 0.01] Pa; reference 20e-6 Pa",
    ),
    *rows(
        "sound-level-difference",
        "{dB}",
        RSS,
        lambda left, right: float(20 * np.log10(np.linalg.norm(left.m) / np.linalg.norm(right.m))),
        "left [0.2, -0.2, 0.2]; right [0.1, -0.1, 0.1]",
        "left [0.5, 0.1, -0.3]; right [0.4, -0.5, 0.3]",
        "left [1, -1.2, 0.9] m/s2; right [2, -2.2, 1.7] m/s2",
    ),
    *rows(
        "sound-amplitude-at-frequency",
        "m/s2",
        "sum over numpy.exp(-2j pi f t)",
        _amplitude,
        f"samples {wave(0.5)} m/s2; times {TIMES} s; frequency 100 Hz",
        f"samples {wave(0.5)} m/s2; times {TIMES} s; frequency 200 Hz",
        f"samples {wave(0.5)} m/s2; times {TIMES} s; frequency 300 Hz",
        rtol=1e-5,
    ),
]
EXAMPLES = [*UNCERTAINTY, *DECISIONS, *SIGNALS]
