"""Does the plant fit together: each rule a formula with its source, each check a verdict in words."""
