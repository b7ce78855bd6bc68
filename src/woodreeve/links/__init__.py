"""What woodreeve speaks with outside this computer; each only where the owner has turned it on."""
