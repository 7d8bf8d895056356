"""Is what arrives understood: channels, numbers, banks, values, settings."""
