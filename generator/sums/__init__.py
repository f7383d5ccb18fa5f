"""Each sum by itself, for anyone who wants to check it: the same functions that the guides are made with."""
