"""The conversation: a line in, a Reply out; the only door the front ends use."""
