"""From cost drivers to a price that explains itself."""
