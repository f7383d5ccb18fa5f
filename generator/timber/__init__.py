"""Wood and moisture. Pure: numbers in, numbers out."""
