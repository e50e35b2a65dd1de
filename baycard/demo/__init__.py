"""The demo workshop: invented people, vehicles and pictures, written through the same doors as real work."""
