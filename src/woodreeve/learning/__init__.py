"""What the owner's own readings teach: of each stack, of each place, and of the plan's figures."""
