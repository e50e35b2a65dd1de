"""The HTTP door: one blueprint per room, problems, headers and the static front end."""
