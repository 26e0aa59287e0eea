"""Heat soaking into a round body: transient conduction in a solid or hollow long cylinder.

Owns the series and the Bessel functions it needs. A roll of film as such a body, with its
properties, is roll_warm_up.py's.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, exp, log, pi, sin, sqrt

EULER_GAMMA = 0.5772156649015329
# Below it the power series is exact to 1e-11, above it Hankel's expansion is.
_SERIES_TO = 12.0
_TERMS = 8
# An insulated bore as fine as this does to the heat what none does.
_SOLID = 1e-4
# Once the last term has died away so far (root^2 Fo over this), those left out count for nothing.
_DEAD = 25.0
# While the last term still counts (root^2 Fo below this), heat has not reached the bore.
_NOT_YET = 12.0


def bessel(x: float) -> tuple[float, float, float, float]:
    """J0, J1, Y0, Y1 at x > 0, each within 1e-9.

    Power series (Abramowitz & Stegun 9.1.10-9.1.13) to x = 12, Hankel's asymptotic expansion
    (9.2.5-9.2.10) beyond.
    """
    if x <= _SERIES_TO:
        return _by_series(x)
    p0, q0 = _hankel(0, x)
    p1, q1 = _hankel(1, x)
    scale = sqrt(2 / (pi * x))
    a, b = x - pi / 4, x - 3 * pi / 4
    return (
        scale * (p0 * cos(a) - q0 * sin(a)), scale * (p1 * cos(b) - q1 * sin(b)),
        scale * (p0 * sin(a) + q0 * cos(a)), scale * (p1 * sin(b) + q1 * cos(b)),
    )


def _by_series(x: float) -> tuple[float, float, float, float]:
    quarter = x * x / 4
    term, harmonic, k = 1.0, 0.0, 0
    j0 = j1 = y0 = y1 = 0.0
    while True:
        j0 += term
        j1 += term / (k + 1)
        y0 -= term * harmonic
        # psi(k + 1) + psi(k + 2) = 2 (H_k - gamma) + 1 / (k + 1)
        y1 += term / (k + 1) * (2 * (harmonic - EULER_GAMMA) + 1 / (k + 1))
        k += 1
        term *= -quarter / (k * k)
        harmonic += 1 / k
        if abs(term) < 1e-18 and k > quarter:
            break
    j1 *= x / 2
    y0 = 2 / pi * ((log(x / 2) + EULER_GAMMA) * j0 + y0)
    y1 = 2 / pi * log(x / 2) * j1 - 2 / (pi * x) - x / (2 * pi) * y1
    return j0, j1, y0, y1


def _hankel(order: int, x: float) -> tuple[float, float]:
    mu = 4 * order * order
    p, q, term = 0.0, 0.0, 1.0
    for k in range(12):
        if k % 2 == 0:
            p += term if k % 4 == 0 else -term
        else:
            q += term if k % 4 == 1 else -term
        term *= (mu - (2 * k + 1) ** 2) / ((k + 1) * 8 * x)
    return p, q


@dataclass(frozen=True, slots=True)
class Mode:
    """One term of the series: its root and its weights at the bore and in the mean."""

    root: float
    bore: float
    surface: float
    mean: float


def modes(biot: float, bore: float = 0.0, terms: int = _TERMS) -> tuple[Mode, ...]:
    """Terms of the series for a cylinder that starts at one temperature.

    Outside: convection, Bi = h r / k on the outer radius. Inside: an insulated bore.
    Roots of (m J1(m) - Bi J0(m)) Y1(m R) - (m Y1(m) - Bi Y0(m)) J1(m R) = 0; solid cylinder:
    m J1(m) = Bi J0(m). Weights from the orthogonality of the eigenfunctions.

    biot  > 0; bore  R = bore radius / outer radius, 0 (solid) to 0.95
    Source: Cengel, Heat and Mass Transfer, ch. 4 (solid); Carslaw & Jaeger's form (hollow).
    Check: Bi 1, solid: m1 = 1.2558, centre weight 1.2071 (Cengel, table 4-2).
    """
    if not biot > 0 or not 0 <= bore <= 0.95:
        raise ValueError(f"Biot number {biot} must be over 0, bore ratio {bore} from 0 to 0.95")
    if bore < _SOLID:
        bore = 0.0

    def residue(m: float) -> float:
        j0, j1, y0, y1 = bessel(m)
        if bore == 0:
            return m * j1 - biot * j0
        _, j1r, _, y1r = bessel(m * bore)
        return (m * j1 - biot * j0) * y1r - (m * y1 - biot * y0) * j1r

    spacing = pi / (1 - bore)
    found: list[float] = []
    low = 1e-6
    value = residue(low)
    while len(found) < terms:
        high = low + spacing / 5
        following = residue(high)
        if value * following < 0:
            found.append(_root(residue, low, high, value, following))
            # Two roots never lie closer than half the spacing that they come to far out.
            high = found[-1] + spacing / 2
            following = residue(high)
        low, value = high, following
    return tuple(_mode(m, bore) for m in found)


def _root(f, low: float, high: float, f_low: float, f_high: float) -> float:
    """A root between two signs, by the Illinois rule of false position."""
    side = 0
    middle = low
    for _ in range(100):
        previous = middle
        middle = (low * f_high - high * f_low) / (f_high - f_low)
        value = f(middle)
        if abs(middle - previous) < 1e-10 or value == 0:
            return middle
        if value * f_high > 0:
            high, f_high = middle, value
            if side == -1:
                f_low /= 2
            side = -1
        else:
            low, f_low = middle, value
            if side == 1:
                f_high /= 2
            side = 1
    return middle


def _mode(m: float, bore: float) -> Mode:
    j0, j1, y0, y1 = bessel(m)
    if bore == 0:
        at_bore, at_surface, slope = 1.0, j0, j1
        norm = (j0 * j0 + j1 * j1) / 2
    else:
        _, j1r, _, y1r = bessel(m * bore)
        at_surface = j0 * y1r - y0 * j1r
        slope = j1 * y1r - y1 * j1r
        at_bore = -2 / (pi * m * bore)
        norm = (at_surface**2 + slope**2 - (bore * at_bore) ** 2) / 2
    weight = slope / m / norm
    return Mode(m, weight * at_bore, weight * at_surface, weight * 2 * slope / (m * (1 - bore**2)))


def remaining(series: tuple[Mode, ...], fourier: float, where: str = "bore") -> float:
    """What is left of the temperature difference: (T - T_room) / (T_0 - T_room).

    fourier  Fo = alpha t / r^2 on the outer radius; so early that the kept terms do not suffice,
             the bore has not felt anything yet and 1 is returned
    where    bore (the centre of a solid cylinder) | surface | mean
    """
    if where == "bore" and series[-1].root ** 2 * fourier < _NOT_YET:
        return 1.0
    total = sum(getattr(mode, where) * exp(-mode.root**2 * fourier) for mode in series)
    return min(total, 1.0)


def settled(series: tuple[Mode, ...], fourier: float) -> bool:
    """Whether the terms of a series are enough at a Fourier number."""
    return series[-1].root ** 2 * fourier > _DEAD


def fourier_for(series: tuple[Mode, ...], left: float, where: str = "bore") -> float:
    """The Fourier number at which `left` of the difference remains; 0 < left < 1."""
    if not 0 < left < 1:
        raise ValueError(f"a share between 0 and 1, not {left}")
    low, high = 0.0, 1.0
    while remaining(series, high, where) > left:
        high *= 2
    while high - low > 1e-9 * high:
        middle = (low + high) / 2
        if remaining(series, middle, where) > left:
            low = middle
        else:
            high = middle
    return high
