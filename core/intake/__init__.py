"""Plans and recipes that come in as text."""
