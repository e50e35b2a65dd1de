"""The API as phones meet it."""
