"""Benchmarks: scripts that print figures, run by hand. No test; tests mirror assistant/ beside."""
