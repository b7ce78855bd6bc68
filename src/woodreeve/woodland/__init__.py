"""The woodland: compartments, growth, cuts and licences."""
