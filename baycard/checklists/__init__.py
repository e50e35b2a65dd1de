"""The shop's knowledge as data: load, check and version the YAML, and compile it into the book the phone reads."""
