"""bayhand: the hand in the bay for people who wrap vehicles in film."""
