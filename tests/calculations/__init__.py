"""Tests of the sums: expected values come from hand working, printed tables or other libraries."""
