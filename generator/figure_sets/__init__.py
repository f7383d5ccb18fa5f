"""Figures of each part of the guide, gathered into one collection."""
