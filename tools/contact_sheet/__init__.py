"""Every screen in every state on a few sheets, to be looked at by a person."""
