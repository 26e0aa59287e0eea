"""Reckoning: a calculation from the first line to its result.

Owns the taking in of a line, the asking for what is missing, the follow-up that changes one number,
and the reply. What is open is open_sum.py's, which number belongs to which slot slots.py's, the sum
itself calculations/'s.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from datetime import datetime
from typing import TYPE_CHECKING, Any

from assistant.conversation.doubts import (
    Trouble,
    as_quantity,
    beyond,
    clash,
    said_twice,
)
from assistant.conversation.in_force import InForce, in_hand
from assistant.conversation.moments_said import (
    moments_claimed,
    moments_in,
)
from assistant.conversation.open_sum import (
    OpenSum,
    Value,
    carried_over,
    given_to,
    value_words,
    words_told,
)
from assistant.conversation.several import (
    LOG,
    PANEL,
    parts_told,
    readings_listed,
    sides_listed,
)
from assistant.conversation.slots import (
    claims,
    options_chosen,
    ranges_apart,
    unit_for,
    unit_of_line,
)
from assistant.conversation.telling import Film
from assistant.conversation.wording import (
    basis_words,
    caution_texts,
    figure_of,
    moment_of,
)
from assistant.hearing.heard import Heard
from assistant.quantity.read import Found
from assistant.quantity.write import System, show
from assistant.reply import ASKS, RESULT, Reply

if TYPE_CHECKING:
    from assistant.calculations.base import Result

UNIT_WANTED = "unit"
# A line that leans on what was worked out last.
_LEANS = re.compile(r"\b(?:it|that|this|them|they|these|those|still|all of)\b")
_UNIT_CHOICES = {
    "length": ("inches", "centimetres", "millimetres"),
    "temperature": ("Fahrenheit", "Celsius"),
    "temperature_difference": ("Fahrenheit", "Celsius"),
    "area": ("square feet", "square metres"),
    "volume": ("fluid ounces", "millilitres", "litres"),
    "duration": ("hours", "minutes", "days"),
    "mass": ("pounds", "kilograms", "grams"),
    PANEL: ("inches", "centimetres", "millimetres"),
    LOG: ("Fahrenheit", "Celsius"),
}


# The units in which a person has spoken of each kind of quantity so far.
Habits = Mapping[str, System]
_SAME_HABIT = {"temperature_difference": "temperature", "temperature": "temperature_difference"}


def habit(habits: Habits, kind: str) -> System | None:
    """The system in which a person speaks of a kind; None when nothing was said of it.

    Inches and Celsius live together in many bays, so that one says nothing of the other.
    """
    if kind in ("length", "temperature", "temperature_difference"):
        return habits.get(kind) or habits.get(_SAME_HABIT.get(kind, ""))
    systems = set(habits.values())
    return habits.get(kind) or (systems.pop() if len(systems) == 1 else None)


class Reckoner:
    """Runs calculations over a knowledge base.

    knowledge  answers calculations[id], resolve(rule_id) and cautions
    """

    def __init__(self, knowledge: Any) -> None:
        self.knowledge = knowledge

    def whole(
        self, ids: Iterable[str], heard: Heard, now: datetime, least: int = 2,
        strict: bool = False,
    ) -> str | None:
        """The one calculation of several that a line gives whole; None for none or two.

        Of two, the one that every number can be a number of.
        """
        found = [
            each for each in ids if each in self.knowledge.calculations
            and OpenSum(self.knowledge.calculations[each]).filled_by(
                heard, now, least, strict
            )
        ]
        if len(found) > 1:
            found = [
                each for each in found
                if OpenSum(self.knowledge.calculations[each]).filled_by(heard, now, least, True)
            ]
        return found[0] if len(found) == 1 else None

    def begin(self, calculation_id: str, heard: Heard, habits: Habits, system: System,
              now: datetime, film: Film | None = None, before: OpenSum | None = None
              ) -> tuple[Reply, OpenSum]:
        """Start a calculation with what the line gives.

        before  the sum that was worked on last: "does it still fit" takes over its result
        """
        entry = self.knowledge.calculations[calculation_id]
        leans = heard.follow_up or _LEANS.search(heard.tidy) is not None
        carried = carried_over(entry, before if leans else None)
        sum_ = OpenSum(entry, film or Film(), carried, heard=heard.said())
        return self.go_on(sum_, heard, habits, system, now)

    def go_on(self, sum_: OpenSum, heard: Heard, habits: Habits, system: System, now: datetime,
              unit_told: str | None = None, film: Film | None = None, corrects: bool = False,
              ) -> tuple[Reply, OpenSum]:
        """Take a further line into an open (or finished) calculation, then compute or ask.

        film      the film that the line names; None leaves it as it was
        corrects  the line takes back what was said last ("make it 2 inch"): a number without a
                  word of its own is for the slot that was filled last
        """
        if film is not None:
            sum_ = replace(sum_, film=film)
        sum_ = replace(sum_, words=self._zones(sum_.film))
        slots = sum_.entry.slots
        values = dict(sum_.values)
        bare: list[tuple[str, Found]] = []
        spoken = heard.said()
        if sum_.heard and spoken != sum_.heard:
            spoken = f"{sum_.heard}; then {spoken}" if spoken else sum_.heard

        def stop(reply: Reply, asked: str | None = None) -> tuple[Reply, OpenSum]:
            return reply, replace(
                sum_, values=values, bare=tuple(bare), asked=asked, heard=spoken
            )

        for found in heard.quantities:
            if found.problem:
                return stop(self._asks(
                    sum_, spoken, f"I cannot read {found.text.strip()!r}: {found.problem}.", ()
                ), sum_.asked)

        for name, option in options_chosen(slots, heard.text, heard.quantities).items():
            values[name] = Value(option)
        values |= words_told(sum_, heard)
        spans = moments_in(slots, heard.text, now, system)
        quantities = parts_told(slots, heard.text, [
            found for found in heard.quantities
            if not any(found.start < span.end and span.start < found.end for span in spans)
        ])
        logs, quantities, free = readings_listed(slots, heard.text, quantities, now, spans)
        for name, readings in logs.items():
            unit = next((found.unit for _, found in readings if found.unit), None)
            unit = unit or _own_degree(habit(habits, "temperature"))
            values[name] = Value(readings, unit)
            if unit is None:
                bare.append((name, readings[0][1]))
        moments, _ = moments_claimed(slots, heard.text, now, system, sum_.asked, free)
        values |= {name: Value(moment) for name, moment in moments.items()}
        further, quantities = sides_listed(slots, heard.text, ranges_apart(slots, quantities))
        values |= {
            name: Value(pairs, unit_of_line("length", [side for pair in pairs for side in pair])
                        or unit_of_line("length", quantities))
            for name, pairs in further.items()
        }
        # Where one pair is a panel's own, the others are in its unit.
        if not any(spec.pair for spec in slots.values()):
            for name, pairs in further.items():
                unit = values[name].unit or _own_side(habit(habits, "length"))
                values[name] = replace(values[name], unit=unit)
                if unit is None and any(side.unit is None for pair in pairs for side in pair):
                    bare.append((name, pairs[0][0]))

        quantities, doubt = said_twice(slots, heard.text, quantities)
        before = dict(sum_.values)
        expected = sum_.asked or (sum_.latest if corrects else None)
        claimed = claims(slots, heard.text, quantities, values, expected)
        if claimed:
            last = max(claimed, key=lambda claim: claim.found.start)
            sum_ = replace(sum_, latest=last.slot)
        taken = [(claim.slot, claim.found, None) for claim in claimed]
        # A unit that this line brings serves the numbers that still wait for one.
        waiting = [
            (name, found, unit) for name, found in sum_.bare
            if (unit := unit_told or unit_of_line(slots[name].kind, quantities)) is not None
        ]
        sum_ = replace(sum_, bare=tuple(
            pair for pair in sum_.bare if pair[0] not in {name for name, _, _ in waiting}
        ))
        if not unit_told:
            # A bare number that was left open keeps waiting unless this line replaces it.
            bare += [pair for pair in sum_.bare if pair[0] not in {name for name, _, _ in taken}]
        for name, found, told in [*waiting, *taken]:
            spec = slots[name]
            if spec.kind in (LOG, PANEL):
                values[name] = replace(values[name], unit=told)
                continue
            unit = told or unit_for(spec, found, quantities, habit(habits, spec.kind))
            if unit is None:
                bare.append((name, found))
                continue
            value = as_quantity(spec, found, unit)
            if isinstance(value, Trouble):
                return stop(self._asks(sum_, spoken, value.text, (name,)), name)
            low_high = found.quantities(unit)
            trouble = next(
                (
                    trouble for each in low_high
                    if (trouble := beyond(
                        name, spec, each, show(each, system, unit=unit, second=False),
                        lambda limit: show(limit, system),
                    ))
                ),
                None,
            )
            if trouble is not None:
                return stop(self._asks(
                    sum_, spoken, f"{trouble.text} Nothing was worked out.", (name,), spec.prompt
                ), name)
            high = low_high[1] if low_high[1] != low_high[0] else None
            values[name] = Value(value, unit, high)
        fresh = {name for name, value in values.items() if before.get(name) is not value}
        for name in fresh:
            for other in slots[name].replaces:
                if other not in fresh:
                    values.pop(other, None)
        doubt = doubt or clash(
            slots, heard.text, quantities, [(name, found) for name, found, _ in taken]
        )
        if doubt is not None:
            values.pop(doubt.slot, None)
            return stop(self._asks(
                sum_, spoken, f"{doubt.text} Nothing was worked out.", (doubt.slot,),
                slots[doubt.slot].prompt,
            ), doubt.slot)
        if bare:
            return stop(self._ask_unit(sum_, spoken, bare), UNIT_WANTED)
        for name, spec in slots.items():
            if spec.required and name not in values:
                return stop(self._ask_slot(sum_, spoken, name, spec, values, system), name)
        claimed = {id(found) for _, found, _ in taken}
        spare = [found.text for found in quantities if id(found) not in claimed]
        reply, result = self._result(sum_, values, spoken, system, now, spare)
        sum_ = replace(sum_, found={
            figure.name: figure.low for figure in (result.figures if result is not None else ())
        })
        return stop(reply, reply.needs[0] if reply.outcome == ASKS and reply.needs else None)

    def _zones(self, film: Film) -> tuple[str, ...]:
        """The climate zones of the sheet of a film."""
        if film.sheet is None:
            return ()
        life = self.knowledge.films[film.sheet].film.life
        return tuple(dict.fromkeys(line.zone for line in life))

    # -- asking ------------------------------------------------------------------------------

    def _asks(self, sum_: OpenSum, heard: str, text: str, needs: tuple[str, ...],
              prompt: str = "", choices: tuple[str, ...] = ()) -> Reply:
        return Reply(
            ASKS, f"{text} {prompt}".strip(), intent=sum_.entry.id, heading=sum_.entry.title,
            heard=heard, needs=needs, choices=choices,
        )

    def _ask_unit(self, sum_: OpenSum, heard: str, bare: list[tuple[str, Found]]) -> Reply:
        texts = list(dict.fromkeys(found.text.strip() for _, found in bare))
        kind = sum_.entry.slots[bare[0][0]].kind
        units = _UNIT_CHOICES.get(kind, ())
        named = " and ".join(texts) if len(texts) < 3 else ", ".join(texts)
        what = " or ".join(units) if units else "which unit"
        return self._asks(
            sum_, heard, f"{named}: in what unit, {what}?", (UNIT_WANTED,), choices=units
        )

    def _ask_slot(self, sum_: OpenSum, heard: str, name: str, spec: Any,
                  values: dict[str, Value], system: System) -> Reply:
        have = ", ".join(
            f"{sum_.entry.slots[key].name} {value_words(value, system)}"
            for key, value in values.items() if not isinstance(value.what, tuple)
        )
        lead = f"I have {have}. " if have else ""
        example = f" For example: {spec.example}." if spec.example else ""
        choices = tuple(key.replace("-", " ") for key in (spec.options or {}))
        return self._asks(
            sum_, heard, f"{lead}{spec.prompt}{example}", (name,), choices=choices
        )

    # -- the result --------------------------------------------------------------------------

    def _defaults(self, entry: Any, values: dict[str, Value], system: System, in_force: InForce
                  ) -> tuple[dict[str, Value], list[str]]:
        filled = dict(values)
        assumed: list[str] = []
        for name, spec in entry.slots.items():
            if name in filled or spec.default is None:
                continue
            default = spec.default
            if default.option is not None:
                filled[name] = Value(default.option)
                assumed.append(f"{spec.name}: {default.option.replace('-', ' ')}")
                continue
            if default.rule is not None:
                figure = in_force.resolved(default.rule, default.figure)
                low, _ = figure.quantities()
                unit = figure.unit
            else:
                low, unit = default.quantity(), default.unit
            filled[name] = Value(low, unit)
            source = f" (rule {default.rule})" if default.rule else ""
            assumed.append(f"{spec.name} {show(low, system, unit=unit, second=False)}{source}")
        return filled, assumed

    def _result(self, sum_: OpenSum, values: dict[str, Value], heard: str, system: System,
                now: datetime, spare: Sequence[str]) -> tuple[Reply, Result | None]:
        # Only a sum pays for the calculations; a rule is told without them.
        from assistant.calculations.base import Impossible, Missing, Setting
        from assistant.calculations.registry import calculation

        entry = sum_.entry
        in_force = InForce(self.knowledge, sum_.film)
        filled, assumed = self._defaults(entry, values, system, in_force)
        sum_module = calculation(entry.id)
        setting = Setting(
            system=system, figure=in_force.figure, now=now,
            film=in_hand(self.knowledge, sum_.film),
            said_in={name: value.unit for name, value in values.items() if value.unit},
        )
        try:
            inputs = sum_module.Inputs(
                **given_to(filled, sum_module.Inputs.model_fields, entry.slots)
            )
            result = sum_module.calculate(inputs, setting)
        except Impossible as impossible:
            spec = entry.slots.get(impossible.slot)
            wanting = isinstance(impossible, Missing)
            return Reply(
                ASKS, impossible.text if wanting else f"{impossible.text} Nothing was worked out.",
                intent=entry.id, heading=entry.title, heard=heard,
                needs=(impossible.slot,) if spec is not None else (),
            ), None
        cautions = caution_texts(self.knowledge, (*entry.cautions, *result.cautions))
        layer_source = in_force.source()
        return Reply(
            RESULT,
            result.answer,
            intent=entry.id,
            heading=entry.title,
            heard=heard,
            assumed=(
                *assumed, *in_force.told(system), *result.assumed,
                *(f"not used: {' '.join(text.split())}" for text in dict.fromkeys(spare)),
            ),
            rules=tuple(dict.fromkeys((*result.rules,))),
            figures=tuple(
                figure_of(
                    figure.name, figure.low, figure.high, figure.unit, figure.system or system,
                    figure.fine,
                )
                for figure in result.figures
            ),
            times=tuple(
                moment_of(moment.name, moment.at, system, moment.whole_day)
                for moment in result.times
            ),
            steps=tuple(result.steps),
            working=tuple(result.working),
            sketch=tuple(result.sketch),
            cautions=cautions,
            basis=entry.basis,
            basis_words=basis_words(self.knowledge, entry.basis, entry.source, entry.note),
            layer=in_force.layer(),
            overrode=in_force.overrode(system),
            source=self.knowledge.source_title(layer_source or entry.source),
        ), result


def _own_side(system: System | None) -> str | None:
    """The unit of the sides of a panel in a person's system."""
    return None if system is None else "in" if system == System.US else "cm"


def _own_degree(system: System | None) -> str | None:
    return None if system is None else "degF" if system == System.US else "degC"
