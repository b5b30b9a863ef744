"""How the property tests draw their examples, in every room."""

from hypothesis import settings

# The same examples on every machine: a red test then speaks of the change at hand, not of luck.
# `--hypothesis-profile=explore` looks further, with new examples each time; run it before a change is done.
settings.register_profile("settled", derandomize=True)
settings.register_profile("explore", derandomize=False, print_blob=True)
settings.load_profile("settled")
