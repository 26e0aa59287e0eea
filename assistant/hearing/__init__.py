"""Hearing: words typed or dictated -> what was heard. Knows no rule, opens no file."""
