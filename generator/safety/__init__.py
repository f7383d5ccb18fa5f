"""What tools, dust and glue do to people, in numbers: noise, vibration, dust, vapours."""
