"""Money: what heat costs, and what other ways to heat would cost."""
