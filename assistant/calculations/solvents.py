"""Solvents: what the air sums need to know of each, with where it stands.

Owns the physical data and the published exposure limits. How much of it is in the air is
solvent_air.py's; the limits of isopropyl alcohol are also rules, which a shop may tighten.
"""

from __future__ import annotations

from dataclasses import dataclass

# Litres that a mole of vapour takes up at 25 degC and 1 atm, as ACGIH prints it (exact: 24.465).
MOLAR_VOLUME = 24.45


@dataclass(frozen=True, slots=True)
class Solvent:
    """One solvent.

    molar    g/mol; density  g/mL at 25 degC
    twa      8 h (NIOSH: up to 10 h) limit, ppm: the lower of NIOSH's and OSHA's
    short    15 min limit, ppm; None where neither body sets one
    lel      lower explosive limit, per cent of air; idlh  ppm
    said     the limits as printed, for the reader
    """

    name: str
    molar: float
    density: float
    twa: float
    short: float | None
    lel: float
    idlh: float
    said: str


# Limits: NIOSH Pocket Guide and the NIOSH IDLH documentation (1994); OSHA 29 CFR 1910.1000, Z-1,
# toluene Z-2. Molar mass, LEL: NIOSH. Densities at 25 degC: handbook values, from memory for
# isopropyl alcohol and ethyl acetate.
SOLVENTS: dict[str, Solvent] = {
    "isopropyl-alcohol": Solvent(
        "isopropyl alcohol", 60.1, 0.785, 400, 500, 2.0, 2000,
        "NIOSH 400 ppm, 15 min 500; OSHA 400",
    ),
    "acetone": Solvent(
        "acetone", 58.1, 0.784, 250, None, 2.5, 2500,
        "NIOSH 250 ppm; OSHA 1000; no 15 min limit",
    ),
    "toluene": Solvent(
        "toluene", 92.1, 0.862, 100, 150, 1.1, 500,
        "NIOSH 100 ppm, 15 min 150; OSHA table Z-2: 200, ceiling 300, peak 500 for 10 min",
    ),
    "xylene": Solvent(
        "xylene", 106.2, 0.86, 100, 150, 0.9, 900,
        "NIOSH 100 ppm, 15 min 150; OSHA 100",
    ),
    "heptane": Solvent(
        "n-heptane", 100.2, 0.680, 85, 440, 1.05, 750,
        "NIOSH 85 ppm, ceiling 440 for 15 min; OSHA 500",
    ),
    "ethyl-acetate": Solvent(
        "ethyl acetate", 88.1, 0.894, 400, None, 2.0, 2000,
        "NIOSH 400 ppm; OSHA 400; no 15 min limit",
    ),
}
