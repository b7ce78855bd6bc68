"""Selling wood: customers, agreements and what they may be promised."""
