"""From won lines to a run schedule, and the `rollwright` command."""
