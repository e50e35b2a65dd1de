"""Takes in what the phones send and hands out what they lack."""
