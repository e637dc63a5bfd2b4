"""The cook's sums, without a screen."""
