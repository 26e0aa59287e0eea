"""bayhand: the hand in the bay for people who wrap vehicles in film."""

__version__ = "0.1.0"
