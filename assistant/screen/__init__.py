"""The screen: the full-screen front end, drawn with Textual; no rule and no sum is known here."""
