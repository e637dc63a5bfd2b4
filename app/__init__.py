"""The window: shows what core works out and sends back what the cook does."""
