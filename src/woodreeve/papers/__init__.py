"""Papers to print and hang up."""
