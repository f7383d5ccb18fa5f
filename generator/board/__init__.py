"""The board's shape and stuff: fair curves, outline, trace, rocker, sections, masses. Pure numbers, no I/O."""
