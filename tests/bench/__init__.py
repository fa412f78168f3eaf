"""Measurements, printed as ratios of one run on one machine; nothing here is a test."""
