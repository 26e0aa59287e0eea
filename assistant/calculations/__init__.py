"""Calculations: one file, one sum of the bay; base.py says what goes in and what comes out."""
