"""The holding: the owner's description of his place, read, checked and written."""
