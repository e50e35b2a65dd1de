"""Persons, devices, sign-in and roles."""
