"""Words: the one place where figures and findings become text, for page, command, paper and notice alike."""
