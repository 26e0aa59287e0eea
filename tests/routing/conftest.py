"""The shipped knowledge, read once for all tests of routing."""

import pytest

from assistant.routing.router import Router
from assistant.rules.load import load


@pytest.fixture(scope="package")
def knowledge():
    return load()


@pytest.fixture(scope="package")
def lexicon(knowledge):
    return knowledge.hearing_lexicon()


@pytest.fixture(scope="package")
def router(knowledge, lexicon):
    return Router.build(knowledge.intents(), lexicon)
