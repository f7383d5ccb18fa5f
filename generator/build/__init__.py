"""Panels, clamps, glue and evenings. Pure: numbers in, numbers out."""
