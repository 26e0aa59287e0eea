"""A sample phrase read quickly holds what the same line typed by a person holds."""

import pytest

from assistant.hearing.hear import hear
from assistant.hearing.heard import CONCEPT, NUMBER
from assistant.hearing.lexicon import Lexicon
from assistant.hearing.sample import sample_of

LEXICON = Lexicon.build({
    "things": {"overlap": {"words": ["overlap", "lap"]}, "heat-gun": {"words": ["heat gun"]},
               "mix": {"words": ["70/30"]}},
    "doings": {"post-heat": {"words": ["post heat"]}, "cut": {"words": ["cut"]}},
    "plain": {"some": {"words": ["how", "the", "with", "is"]}},
    "foreign": {"other": {"words": ["giraffe", "roof tiles"]}},
})


@pytest.mark.parametrize("text", [
    "how do the laps get post heated with the heat gun", "is 70/30 the mix",
    "cut the overlap of the giraffe", "how long is it on roof tiles", "",
])
def test_a_sample_holds_what_a_typed_line_holds(text):
    sample, heard = sample_of(text, LEXICON), hear(text, LEXICON)
    assert {pair for named in sample.groups for pair in named} == {
        (hit.kind, hit.concept) for hit in heard.concepts
    }
    assert [word for word, _ in sample.words] == [
        token.word for token in heard.tokens if token.sort not in (CONCEPT, NUMBER)
    ]
