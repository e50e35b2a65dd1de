"""The foreman's decisions: signing a card off."""
