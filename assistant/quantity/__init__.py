"""Quantities: numbers with units, read, converted and written; US and metric."""
