"""One page a module."""
