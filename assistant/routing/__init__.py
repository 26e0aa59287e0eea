"""Routing: what was heard -> ranked intents and a verdict. Knows no trade, opens no file."""
