"""What all tests share: how hypothesis looks for examples."""

import os

from hypothesis import settings

# No deadline: how long one example takes says more about the machine's other work than about ours.
# At home every run tries other examples; where a change is judged, the same ones, so that luck has
# no say in it.
settings.register_profile("house", deadline=None, derandomize="CI" in os.environ)
settings.load_profile("house")
