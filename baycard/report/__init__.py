"""The report: a signed, frozen card as a page and as a PDF, and its way to the customer."""
