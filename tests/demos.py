"""The demo builders' sums and figures, worked out once a test process. Both are frozen, so tests can share them."""

import functools
from pathlib import Path

from generator.figure_sets import make_figures, work_out
from generator.inputs.site import builder_slugs, read_builder

DATA = Path(__file__).resolve().parents[1] / "site_data"
SLUGS = builder_slugs(DATA)


@functools.cache
def facts_of(slug):
    """The sums of one demo builder."""
    return work_out(read_builder(DATA, slug))


@functools.cache
def figures_of(slug):
    """All figures of one demo builder."""
    return make_figures(read_builder(DATA, slug))
