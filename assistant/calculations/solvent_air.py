"""Solvent in the air: what a quantity that evaporates makes of the air of a bay.

Owns the well-mixed mass balance and the verdict. The data of each solvent are solvents.py's; what
ventilation and masks are for, knowledge/rules/solvents.toml's.
"""

from __future__ import annotations

from math import expm1

from assistant.calculations.base import Inputs as BaseInputs
from assistant.calculations.base import Missing, NamedFigure, Result, Setting, require
from assistant.calculations.solvents import MOLAR_VOLUME, SOLVENTS, Solvent
from assistant.quantity.kinds import Concentration, Length, Quantity, Rate, Ratio, Volume

NOTHING = Volume.of(0, "mL")
MOST = Volume.of(50, "L")
SMALLEST_BAY = Volume.of(1, "m3")
LARGEST_BAY = Volume.of(100_000, "m3")
CLOSED = Rate.of(0, "per_h")
FASTEST = Rate.of(120, "per_h")
SHORT_TERM_H = 0.25
SHIFT_H = 8.0
# Air near a wet rag holds many times the room's mean: a tenth of the explosive limit is the alarm.
EXPLOSIVE_SHARE = 0.10
_IPA = "isopropyl-alcohol"


class Inputs(BaseInputs):
    """solvent, the liquid used, the bay, the air changes.

    amount     of liquid; strength  the share of solvent in it (all of it if not given)
    bay        volume of the bay, or length, width and height of it
    air_changes  per hour; closed when not given
    """

    solvent: str
    amount: Volume | None = None
    bay: Volume | None = None
    length: Length | None = None
    width: Length | None = None
    height: Length | None = None
    strength: Ratio | None = None
    air_changes: Rate = CLOSED


def peak_ppm(solvent: Solvent, millilitres: float, cubic_metres: float) -> float:
    """Concentration when all of it has evaporated into still, well-mixed air, in ppm.

    C = V rho / V_bay (mg/m3), times 24.45 / M. At 25 degC and 1 atm.
    Source: mass balance. By hand: 50 mL isopropyl alcohol in 30 m3: 1308 mg/m3, 532 ppm.
    """
    milligrams_per_m3 = millilitres * solvent.density * 1000 / cubic_metres
    return milligrams_per_m3 * MOLAR_VOLUME / solvent.molar


def mean_share(air_changes: float, hours: float) -> float:
    """Mean over the first `hours` as a share of the peak: (1 - exp(-n t)) / (n t); 1 when closed.

    air_changes  n per hour, >= 0; hours  t > 0. Well-mixed decay C = C_peak exp(-n t).
    By hand: n 4, t 0.25 h: 1 - 1/e = 63.2 %.
    """
    exponent = air_changes * hours
    return -expm1(-exponent) / exponent if exponent > 1e-9 else 1.0


def air_changes_for(share: float, hours: float) -> float:
    """Air changes an hour at which mean_share falls to `share`; 0 when 1 or more is allowed."""
    if share >= 1:
        return 0.0
    low, high = 0.0, 1.0
    while mean_share(high, hours) > share:
        high *= 2
    for _ in range(60):
        middle = (low + high) / 2
        if mean_share(middle, hours) > share:
            low = middle
        else:
            high = middle
    return high


def _limits(
    solvent_id: str, solvent: Solvent, setting: Setting
) -> tuple[float, float | None, float]:
    """8 h and 15 min limits in ppm, lower explosive limit in ppm.

    Isopropyl alcohol's are rules, so that a shop's tighter ones hold; the others are the table's.
    """
    if solvent_id != _IPA:
        return solvent.twa, solvent.short, solvent.lel * 10_000
    return (
        setting.limit("ipa-exposure", "twa").to("ppm"),
        setting.limit("ipa-exposure", "short_term").to("ppm"),
        _share_of_air(setting.limit("ipa-exposure", "lel")) * 1e6,
    )


def _share_of_air(limit: Quantity) -> float:
    return limit.si


def _bay(inputs: Inputs, setting: Setting) -> Volume:
    bay = inputs.bay
    sides = (inputs.length, inputs.width, inputs.height)
    if bay is None:
        if any(side is None for side in sides):
            raise Missing(
                "bay", "How big is the bay? Its volume, or its length, width and height.",
            )
        for slot, side in zip(("length", "width", "height"), sides, strict=True):
            require(setting, slot, side, above=Length.of(0, "m"), name=f"{slot} of the bay")
        bay = Volume.of(sides[0].si * sides[1].si * sides[2].si, "m3")
    require(
        setting, "bay", bay, at_least=SMALLEST_BAY, at_most=LARGEST_BAY, name="the bay",
        unit=setting.unit("ft3", "m3"),
    )
    return bay


_ESTIMATE = (
    " An estimate for a well-mixed bay, no substitute for a measurement, the safety data sheet or "
    "the local limit."
)


def _ppm(value: float) -> Concentration:
    return Concentration.of(value, "ppm")


def _most(
    inputs: Inputs, setting: Setting, solvent: Solvent, bay: Volume, strength: float
) -> Result:
    """The most liquid that stays under every limit: what is asked where no amount is told."""
    n = inputs.air_changes.to("per_h")
    twa, short, lel = _limits(inputs.solvent, solvent, setting)
    per_ml = peak_ppm(solvent, strength, bay.to("m3"))
    bounds = [
        ("8 h limit", twa, per_ml * mean_share(n, SHIFT_H)),
        ("a tenth of the lower explosive limit", EXPLOSIVE_SHARE * lel, per_ml),
    ]
    if short is not None:
        bounds.insert(1, ("15 min limit", short, per_ml * mean_share(n, SHORT_TERM_H)))
    allowed, name, limit = min((limit / each, name, limit) for name, limit, each in bounds)
    most = Volume.of(allowed, "mL")
    air = "closed, no air changes" if n == 0 else f"air changes {setting.own(inputs.air_changes)}"
    return Result(
        answer=(
            f"At most {setting.both(most)} at a time stays under the limits for {solvent.name}: "
            f"the {name.removeprefix('a ')}, {setting.own(_ppm(limit))}, comes first.{_ESTIMATE}"
        ),
        figures=(NamedFigure("most liquid that stays under", most),),
        working=tuple(
            f"{name}: {setting.own(_ppm(limit))} / {each:.3g} ppm for each mL = "
            f"{setting.own(Volume.of(limit / each, 'mL'))}"
            for name, limit, each in bounds
        ),
        steps=("Less is better: a damp rag, the lid on, wet rags out in a closed metal bin.",),
        assumed=(
            air, "well-mixed bay at 25 °C, evaporated at once; by the rag it is many times more",
        ),
        rules=("ipa-exposure", "no-heat-near-solvent") if inputs.solvent == _IPA
        else ("no-heat-near-solvent",),
        verdict="at most",
    )


def calculate(inputs: Inputs, setting: Setting) -> Result:
    """Peak, 15-minute and 8-hour mean against the limits; what would stay under them.

    All of the liquid evaporates at once into a well-mixed bay at 25 degC; nobody adds more.
    Raises Impossible for amounts, bays and ventilation out of all measure.
    """
    solvent = SOLVENTS.get(inputs.solvent)
    if solvent is None:
        known = ", ".join(known.name for known in SOLVENTS.values())
        raise Missing("solvent", f"Which solvent: {known}?")
    if inputs.amount is not None:
        require(setting, "amount", inputs.amount, above=NOTHING, at_most=MOST)
    bay = _bay(inputs, setting)
    changes = inputs.air_changes
    require(setting, "air_changes", changes, at_least=CLOSED, at_most=FASTEST)
    strength = 1.0
    if inputs.strength is not None:
        require(
            setting, "strength", inputs.strength, above=Ratio.of(0, "percent"),
            at_most=Ratio.of(100, "percent"),
        )
        strength = inputs.strength.si

    if inputs.amount is None:
        return _most(inputs, setting, solvent, bay, strength)
    neat = inputs.amount * strength
    n = changes.to("per_h")
    peak = peak_ppm(solvent, neat.to("mL"), bay.to("m3"))
    short_mean = peak * mean_share(n, SHORT_TERM_H)
    shift_mean = peak * mean_share(n, SHIFT_H)
    twa, short, lel = _limits(inputs.solvent, solvent, setting)

    over: list[str] = []
    if short is not None and short_mean > short:
        over.append(f"the 15 min limit, {setting.own(_ppm(short))}")
    if shift_mean > twa:
        over.append(f"the 8 h limit, {setting.own(_ppm(twa))}")
    explosive = peak > EXPLOSIVE_SHARE * lel
    if explosive:
        over.append(
            f"a tenth of the lower explosive limit, {setting.own(_ppm(EXPLOSIVE_SHARE * lel))}"
        )

    shares = [twa / shift_mean, EXPLOSIVE_SHARE * lel / peak]
    if short is not None:
        shares.append(short / short_mean)
    allowed = inputs.amount * min(shares)
    needed = max(
        air_changes_for(twa / peak, SHIFT_H),
        air_changes_for(short / peak, SHORT_TERM_H) if short is not None else 0.0,
    )

    figures = [
        NamedFigure("peak, all of it evaporated at once", _ppm(peak)),
        NamedFigure("mean of the first 15 minutes", _ppm(short_mean)),
        NamedFigure("mean over 8 hours", _ppm(shift_mean)),
        NamedFigure(
            "peak as a share of the lower explosive limit", Ratio.of(100 * peak / lel, "percent")
        ),
    ]
    air = "closed, no air changes" if n == 0 else f"air changes {setting.own(changes)}"
    steps: list[str] = []
    if over:
        figures += [
            NamedFigure("most liquid that stays under", allowed),
            NamedFigure("or air changes that stay under", Rate.of(needed, "per_h")),
        ]
        steps = [
            f"Use at most {setting.both(allowed)} at a time, with this ventilation.",
            "Put the lid on and carry wet rags out in a closed metal bin.",
        ]
        if not explosive:
            steps.insert(1, f"Or change the air {needed:.1f} times an hour.")
        beyond = " and ".join(over)
        answer = f"Too much: about {setting.own(_ppm(peak))} at the peak, over {beyond}."
    else:
        answer = (
            f"About {setting.own(_ppm(peak))} at the peak, {setting.own(_ppm(short_mean))} over "
            f"the first 15 minutes: under the limits for {solvent.name}."
        )
    answer += _ESTIMATE
    limit_line = f"limits: {solvent.said}; lower explosive limit {solvent.lel:g} %"
    grams = neat.to("mL") * solvent.density
    working = [
        f"{setting.own(neat)} x {solvent.density:g} g/mL = {grams:.1f} g in "
        f"{setting.own(bay, 'ft3', 'm3')}",
        f"{1000 * grams / bay.to('m3'):.0f} mg/m3 x {MOLAR_VOLUME} / {solvent.molar:g} = "
        f"{setting.own(_ppm(peak))}",
        f"{air}: x {mean_share(n, SHORT_TERM_H):.3f} over 15 min = "
        f"{setting.own(_ppm(short_mean))}, "
        f"x {mean_share(n, SHIFT_H):.3f} over 8 h = {setting.own(_ppm(shift_mean))}",
        limit_line,
    ]
    return Result(
        answer=answer,
        figures=tuple(figures),
        working=tuple(working),
        steps=tuple(steps),
        assumed=(
            air, "well-mixed bay at 25 °C, evaporated at once; by the rag it is many times more",
        ),
        rules=("ipa-exposure", "no-heat-near-solvent") if inputs.solvent == _IPA
        else ("no-heat-near-solvent",),
        verdict="over" if over else "under",
    )
