"""The numbers of a sum in whatever order a person says them give the same figures.

Each row is what the sum needs, a clause a number; every order of the clauses (shuffled, seeded)
must give what the first order gives. The figures themselves are checked sum by sum elsewhere.
"""

from __future__ import annotations

import random
from datetime import datetime
from itertools import permutations

import pytest

from assistant.conversation.reckoning import Reckoner
from assistant.hearing.hear import hear
from assistant.quantity.write import System

NOW = datetime(2025, 1, 15, 14, 30)
ORDERS = 16
CLAUSES = {
    "panel-film": ("92 by 31 in", "3 in bleed", "60 in roll"),
    "panel-film, metric": ("side 2.3 m long", "78 cm high", "bleed 5 cm", "roll 152 cm wide"),
    "panel-film, several": ("two doors 45 by 40 in", "a hood 60 x 50 in", "3 in bleed"),
    "roll-left": ("roll 120 mm across", "core 76 mm", "film with liner 250 micron", "need 5 m"),
    "roll-left-by-weight": ("roll weighs 9 kg", "core 1 kg", "film 250 g/m2", "1.52 m wide"),
    "bay-check": ("air 18 C", "humidity 55 percent", "panel 16 C"),
    "bay-check, mixed": ("air 64.4 F", "55% rh", "panel 16 C"),
    "dew-point": ("68 F", "60 percent"),
    "strips": ("surface 118 in wide", "film 60 in", "overlap 1/2 in"),
    "stretch": ("square recess 4 in wide", "1/2 in deep"),
    "arc": ("60 in across", "rise of 4 in"),
    "infrared": ("gun set to 1.0", "reads 200 F on vinyl", "room 70 F"),
    "roll-warm-up": ("6 in roll", "roll at 35 F", "bay at 70 F"),
    "panel-warm-up": ("steel 0.8 mm thick", "panel at 35 F", "bay at 70 F"),
    "solvent-air": ("50 ml of acetone", "bay of 30 m3", "4 air changes an hour"),
    "mixing": ("at 70 percent", "from 99 percent stock", "make 1 litre"),
    "film-cost": ("25 yards pulled", "price $12 a yard", "60 in wide"),
    "labour": ("4 easy panels", "6 medium panels", "2 hard panels", "two people"),
    "job-price": ("film $600", "30 hours at $45", "consumables $80", "margin 20%", "tax 8%"),
    "contraction": ("60 in of film on steel", "from 70 F to 20 F"),
    "cure-clock": ("finished at noon", "bay at 65 F", "cure 20 h"),
    "latest-finish": ("ready Friday 5 pm", "bay at 65 F", "needs 20 hours"),
    "film-life-left": ("laid on 31 March 2022", "sheet gives 5 years", "on the hood"),
}


@pytest.mark.parametrize("row", CLAUSES)
def test_the_order_of_the_numbers_does_not_matter(ready, row):
    calculation = row.partition(",")[0]
    reckoner = Reckoner(ready.knowledge)

    def figures(clauses, joint):
        heard = hear(joint.join(clauses), ready.lexicon)
        reply, _ = reckoner.begin(calculation, heard, {}, System.US, NOW)
        assert reply.outcome == "result", f"{heard.text}: {reply.answer}"
        return sorted((f.name, f.low, f.high, f.unit) for f in reply.figures), [
            moment.at for moment in reply.times
        ]

    expected = figures(CLAUSES[row], ", ")
    orders = list(permutations(CLAUSES[row]))
    random.Random(2025).shuffle(orders)
    for order in orders[:ORDERS]:
        for joint in (", ", " and "):
            # Which panel is listed first is part of the answer; the length in all is not.
            if row.endswith("several"):
                told = {name: low for name, low, _, _ in figures(order, joint)[0]}
                assert told["length off the roll, together"] == 168
                continue
            assert figures(order, joint) == expected, joint.join(order)
