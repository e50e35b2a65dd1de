"""Results from outside: published and independently computed."""
