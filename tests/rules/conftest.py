"""A small knowledge to try the loader on: two rules, a sum, an act, two films, a few words."""

from __future__ import annotations

import pytest

from assistant.rules.load import load

BAY = """
[rules.dew-margin]
title = "Margin above the dew point"
stage = "laying"
about = { thing = ["panel"], doing = ["lay"] }
says = "Keep the panel at least {margin} above the dew point."
why = "Closer than that, water can condense on it."
basis = "practice"
safety = true
cautions = ["local"]
phrases = ["how close to the dew point can i work"]
reaches = ["the panel feels damp, can i start", "how near the dew point may the door be"]
must_not_reach = ["what is the dew point now"]
[rules.dew-margin.figures.margin]
name = "panel above the dew point, at least"
at_least = 3
unit = "dC"
"""

HEAT = """
[rules.post-heat-overlap]
title = "Post-heat: overlaps"
stage = "edges"
about = { thing = ["overlap"], doing = ["heat"] }
says = "Post-heat every overlap to {target}."
why = "Two layers share the heat."
steps = ["Heat it to {target}.", "Let it cool by {dew-margin.margin}."]
basis = "memory"
note = "Read the bulletin."
cautions = ["hot"]
see_also = ["dew-margin"]
phrases = ["how hot for an overlap"]
reaches = ["the lap on the hood, what temp", "overlap needs how much heat at the end"]
must_not_reach = ["how wide is an overlap"]
[rules.post-heat-overlap.figures.target]
name = "overlap post-heat temperature"
value = 225
tolerance = 10
too_much = 250
unit = "degF"
[[rules.post-heat-overlap.variants]]
when = { film = ["chrome"] }
says = "Post-heat an overlap of mirror film to {target}."
cautions = ["glare"]
[rules.post-heat-overlap.variants.figures.target]
name = "overlap post-heat temperature, mirror film"
value = 212
unit = "degF"
[[rules.post-heat-overlap.variants]]
when = { film = ["chrome"], condition = ["repainted"] }
why = "New paint and a mirror both ask for care."
"""

SOLVENT = """
[rules.solvent-air]
title = "Solvent in the air"
stage = "preparation"
about = { thing = ["solvent"], doing = ["wipe"] }
says = "Keep the air under {limit}, wipe at {temperature}, {room} from the heater, rag in {bin}."
why = "It burns, and it harms."
basis = "published"
source = "guide"
safety = true
cautions = ["hot", "local"]
phrases = ["how much solvent may be in the air"]
reaches = ["is the air too full of solvent", "solvent in the air, what limit"]
must_not_reach = ["which solvent for glue"]
figures.limit = { name = "solvent in air, at most", at_most = 400, unit = "ppm" }
figures.temperature = { name = "panel temperature", low = 60, high = 75, unit = "degF" }
figures.room = { name = "distance from a heater", value = 10, tolerance = 1, unit = "ft" }
figures.bin = { name = "rag held over", over = 5, unit = "min" }
"""

FILES = {
    "cautions.toml": """
[cautions.hot]
says = "It burns: gloves on."
topic = "heat"
[cautions.local]
says = "Local rules come first."
topic = "law"
[cautions.glare]
says = "Mind the glare."
topic = "eyes"
""",
    "sources.toml": """
[sources.guide]
title = "A printed guide"
gives = "Limits."
""",
    "lexicon/words.toml": """
[things.panel]
words = ["panel", "door", "hood"]
[things.overlap]
words = ["overlap", "lap"]
broader = "panel"
[things.solvent]
words = ["solvent"]
hazard = "solvent"
[doings.heat]
words = ["heat", "post-heat"]
[doings.lay]
words = ["lay", "work"]
[doings.wipe]
words = ["wipe"]
[doings.measure]
words = ["measure"]
[wishes.how-hot]
words = ["how hot", "what temp"]
[films.chrome]
words = ["chrome", "mirror"]
[films.textured]
words = ["textured"]
[films.carbon]
words = ["carbon"]
broader = "textured"
[conditions.repainted]
words = ["repainted"]
[plain.small]
words = ["the", "for"]
[foreign.cooking]
words = ["oven"]
[spellings]
wot = "what"
""",
    "films/families.toml": """
[families.chrome]
name = "chrome"
conforms = 1
directional = true
[families.gloss]
name = "gloss"
[families.carbon]
name = "carbon-textured"
""",
    "films/sheet-ninefathom-mirror.toml": """
[film]
name = "Ninefathom Mirror"
family = "chrome"
thickness = { value = 4, unit = "mil" }
[overrides.post-heat-overlap.target]
value = 100
unit = "degC"
""",
    "rules/bay.toml": BAY,
    "rules/heat.toml": HEAT,
    "rules/solvent.toml": SOLVENT,
    "calculations/panel-film.toml": """
[calculation]
id = "panel-film"
title = "Film for a panel"
about = { thing = ["panel"], doing = ["measure"] }
example = "film for a panel 92 by 31"
phrases = ["how much film for a panel"]
reaches = ["film off the roll for a hood", "what do i cut for a door"]
must_not_reach = ["how much film is left"]
rules = ["solvent-air"]
basis = "practice"
[slots.length]
name = "length"
kind = "length"
prompt = "How long is it?"
example = "92 in"
required = true
pair = "height"
units = { us = "in", metric = "mm" }
above = { value = 0, unit = "in" }
[slots.height]
name = "height"
kind = "length"
prompt = "How high is it?"
example = "31 in"
required = true
pair = "length"
units = { us = "in", metric = "mm" }
[slots.room]
name = "room"
kind = "length"
prompt = "How far from the heater?"
default = { rule = "solvent-air", figure = "room" }
units = { us = "ft", metric = "m" }
[slots.run]
name = "run"
kind = "choice"
prompt = "Which way?"
default = { option = "along" }
options = { along = ["along the roll"], across = [] }
""",
    "intents/acts.toml": """
[acts.greeting]
title = "Greeting"
phrases = ["hello"]
reaches = ["hello there", "hello you"]
must_not_reach = ["hello, how hot for an overlap"]
""",
}


def write(folder, files):
    """Put texts (or bytes) into files of a folder; None leaves one out."""
    for name, text in files.items():
        if text is None:
            continue
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        if isinstance(text, bytes):
            path.write_bytes(text)
        else:
            path.write_text(text, encoding="utf-8")
    return folder


@pytest.fixture
def shipped(tmp_path, monkeypatch):
    """A function that writes the small knowledge, with changes, and gives its folder."""
    monkeypatch.chdir(tmp_path)

    def make(**changes):
        files = {**FILES, **changes.pop("files", {})}
        return write(tmp_path / "knowledge", files)

    return make


@pytest.fixture
def shop(tmp_path):
    """A function that writes files of the shop and gives its folder."""
    def make(files):
        folder = tmp_path / "home"
        folder.mkdir(exist_ok=True)
        return write(folder, files)

    return make


@pytest.fixture
def loaded(shipped, shop):
    """A function that loads the small knowledge with changes and the shop's files over it."""
    def make(files=None, house=None):
        return load(shipped(files=files or {}), shop(house or {}))

    return make


@pytest.fixture
def told(loaded):
    """The same, giving the problems as sentences."""
    def make(files=None, house=None):
        return [str(problem) for problem in loaded(files, house).problems]

    return make
