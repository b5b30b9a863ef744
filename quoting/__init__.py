"""From a customer's order sheet to a priced quote. Never imports `scheduler`."""
