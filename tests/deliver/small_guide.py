"""A small guide of our own for tests of the site: every part that pages are made of, and no figure."""

from generator.guide.pages import Group, Guide, Page

START = """# The board at a glance

Your board is [2300 mm](numbers.md#board-length){.fig} long. Begin with [the bench](bench.md#steps).

<figure class="drawing" markdown="0">
<svg class="d-sheet" viewBox="0 0 350 60" role="img" aria-labelledby="plan-title">
<title id="plan-title">The board from above</title>
<path class="d-wood" d="M10 30 Q175 -10 340 30 Q175 70 10 30Z"/><text x="120" y="34">nose to the right</text></svg>
<figcaption>The board from above.</figcaption>
</figure>
"""

BENCH = """# The bench

## Steps { #steps }

<ol class="steps" markdown="block">

<li class="step" id="step-bench-string" markdown="block">

<div class="tick"><input type="checkbox" class="tick-box" id="tick-string">
<label for="tick-string">Stretch the string over the whole table</label></div>

Both ends at the same height. If you are stuck, [ask](mailto:hello@example.org).

</li>

</ol>

## Checks { #checks }

| support | height |
|---|---:|
| tail tip | [212 mm](numbers.md#bench-support-1-height){.fig} |
"""

NUMBERS = """# All the numbers

| what | value |
|---|---:|
| <span id="board-length">board length</span> | 2300 mm |
| <span id="bench-support-1-height">height of support 1</span> | 212 mm |
"""


def small_guide(**texts: str) -> Guide:
    """The guide, with other Markdown for the pages named by slug, and another title if one is given."""
    title = texts.pop("title", "Demo&#58; Dunlin")
    markdown = {"board": START, "bench": BENCH, "numbers": NUMBERS} | texts
    titles = {"board": "The board at a glance", "bench": "The bench", "numbers": "All the numbers"}
    files = {slug: "index.md" if slug == "board" else f"{slug}.md" for slug in markdown}
    build = tuple(file for file in files.values() if file != "index.md")
    return Guide(
        title=title,
        pages=tuple(Page(files[slug], titles.get(slug, slug), text, slug) for slug, text in markdown.items()),
        links=("mailto:hello@example.org",),
        here="bench",
        nav=(Group("Start here", ("index.md",)), Group("Build", build)),
    )
