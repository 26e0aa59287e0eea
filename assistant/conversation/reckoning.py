"""Reckoning: a calculation from the first line to its result.

Owns the open calculation: its values so far, what is still wanted, the follow-up that changes one
number. Which number belongs to which slot is slots.py's; the sum itself is calculations/'s.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime
from typing import TYPE_CHECKING, Any

from assistant.conversation.in_force import InForce, in_hand
from assistant.conversation.several import (
    LOG,
    PANEL,
    parts_told,
    readings_listed,
    sides_listed,
)
from assistant.conversation.slots import (
    Trouble,
    as_quantity,
    beyond,
    claims,
    clash,
    moments_claimed,
    moments_in,
    options_chosen,
    out_of_bounds,
    ranges_apart,
    said_twice,
    says_what,
    unit_for,
    unit_of_line,
)
from assistant.conversation.telling import Film
from assistant.conversation.wording import (
    basis_words,
    caution_texts,
    clock_words,
    figure_of,
    moment_of,
)
from assistant.hearing.heard import Heard
from assistant.quantity.kinds import Quantity
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


@dataclass(frozen=True)
class Value:
    """A filled slot: the quantity (or option), the unit it was spoken in, a range's upper end.

    Further sides are kept as they were found: they may still wait for the unit of the first pair.
    """

    what: Any
    unit: str | None = None
    high: Any = None


@dataclass(frozen=True)
class OpenSum:
    """A calculation on the way: what it has, what was asked last.

    film     the film that it is about
    bare     numbers whose unit is still to be told, with the slots that claimed them
    asked    the slot that the last reply asked about, or `unit`, or None when it is complete
    latest   the slot of the number that was spoken last
    words    what a slot of words may take: the climate zones of the film's sheet
    found    the figures of its result by name, unrounded
    """

    entry: Any
    film: Film = field(default_factory=Film)
    values: dict[str, Value] = field(default_factory=dict)
    bare: tuple[tuple[str, Found], ...] = ()
    asked: str | None = None
    latest: str | None = None
    heard: str = ""
    words: tuple[str, ...] = ()
    found: Mapping[str, Quantity] = field(default_factory=dict)

    def takes_all(self, heard: Heard) -> bool:
        """Whether every number of a line has a slot of this calculation."""
        _, numbers = sides_listed(
            self.entry.slots, heard.text, parts_told(self.entry.slots, heard.text, heard.quantities)
        )
        taken = claims(self.entry.slots, heard.text, numbers, self.values, self.asked)
        return len(taken) == len(numbers)

    def filled_by(
        self, heard: Heard, now: datetime, least: int = 2, strict: bool = False
    ) -> bool:
        """Whether a line is this calculation from end to end: nothing that it needs is missing, no
        number is left over, and `least` of them say by their unit or a word what they are."""
        slots = self.entry.slots
        spans = moments_in(slots, heard.text, now)
        numbers = [
            found for found in heard.quantities
            if not any(found.start < span.end and span.start < found.end for span in spans)
        ]
        logs, numbers, free = readings_listed(
            slots, heard.text, parts_told(slots, heard.text, numbers), now, spans
        )
        listed, numbers = sides_listed(slots, heard.text, ranges_apart(slots, numbers))
        numbers, doubt = said_twice(slots, heard.text, numbers)
        taken = claims(slots, heard.text, numbers)
        moments, _ = moments_claimed(slots, heard.text, now, found=free)
        had = {
            *(claim.slot for claim in taken), *moments, *logs, *listed,
            *options_chosen(slots, heard.text, heard.quantities),
        }
        if doubt is not None:
            had.add(doubt.slot)
            least -= 1
        named = sum(says_what(slots, heard.text, claim, numbers) for claim in taken)
        named += len(moments) + sum(map(len, (*logs.values(), *listed.values())))
        return len(taken) == len(numbers) and named >= least and (
            not strict or not out_of_bounds(slots, taken)
        ) and all(
            name in had for name, spec in slots.items() if spec.required
        )

    def fits(self, heard: Heard) -> bool:
        """Whether a line has anything that this calculation could take."""
        if options_chosen(self.entry.slots, heard.text, heard.quantities):
            return True
        if heard.films and self.entry.rules or words_told(self, heard):
            return True
        # Whether a moment is named does not depend on now.
        if moments_claimed(self.entry.slots, heard.text, datetime(2000, 1, 1))[0]:
            return True
        return bool(claims(self.entry.slots, heard.text, heard.quantities, self.values, self.asked))


def words_told(sum_: OpenSum, heard: Heard) -> dict[str, Value]:
    """The slots of words (a climate zone) that a line fills: what stands beside the slot's cue, or
    the whole of a short line where the slot was asked for."""
    told: dict[str, Value] = {}
    for name, spec in sum_.entry.slots.items():
        if spec.kind != "text":
            continue
        known = [word for word in sum_.words if re.search(
            rf"(?<!\w){re.escape(word.lower())}(?!\w)", heard.tidy
        )]
        bare = heard.tidy.strip(" .!?")
        if known:
            told[name] = Value(max(known, key=len))
        elif sum_.asked == name and not heard.quantities and len(bare.split()) <= 3 and not (
            heard.wishes or heard.yes_no
        ):
            told[name] = Value(bare)
    return told


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
        carried = _carried(entry, before) if _LEANS.search(heard.tidy) or heard.follow_up else {}
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
            f"{sum_.entry.slots[key].name} {_spoken(value, system)}"
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
                **_given(filled, sum_module.Inputs.model_fields, entry.slots)
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


def _carried(entry: Any, before: OpenSum | None) -> dict[str, Value]:
    """What a sum takes over from the one before it."""
    if before is None:
        return {}
    taken: dict[str, Value] = {}
    for name, spec in entry.slots.items():
        for source in spec.carried:
            sum_id, _, figure = source.partition(": ")
            found = next(
                (found for called, found in before.found.items() if called.startswith(figure)), None
            )
            if sum_id == before.entry.id and found is not None:
                taken[name] = Value(found)
    return taken


def _given(filled: dict[str, Value], fields: Any, slots: Mapping[str, Any]) -> dict[str, Any]:
    """What a sum is called with. A range fills `<slot>_to` too, where the sum has such a field."""
    given: dict[str, Any] = {}
    for name, value in filled.items():
        if slots[name].kind == PANEL:
            unit = value.unit or next(
                (filled[key].unit for key, spec in slots.items() if spec.pair and key in filled),
                "in",
            )
            given[name] = tuple(
                tuple(side.quantity(side.unit or unit) for side in pair) for pair in value.what
            )
            continue
        if slots[name].kind == LOG:
            given[name] = tuple(
                (moment, level.quantity(level.unit or value.unit)) for moment, level in value.what
            )
            continue
        given[name] = value.what
        if value.high is not None and f"{name}_to" in fields:
            given[f"{name}_to"] = value.high
    return given


def _own_side(system: System | None) -> str | None:
    """The unit of the sides of a panel in a person's system."""
    return None if system is None else "in" if system == System.US else "cm"


def _own_degree(system: System | None) -> str | None:
    return None if system is None else "degF" if system == System.US else "degC"


def _spoken(value: Value, system: System) -> str:
    if isinstance(value.what, Quantity):
        return show(value.what, system, unit=value.unit, second=False)
    if isinstance(value.what, datetime):
        return clock_words(value.what, system)
    return str(value.what).replace("-", " ")
