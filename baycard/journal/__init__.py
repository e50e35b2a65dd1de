"""The journal of a card: its entries, what stands, and everything computed from that. No input or output."""
