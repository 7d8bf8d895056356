"""What all tests share: how hypothesis looks for examples."""

from hypothesis import settings

# No deadline: how long one example takes says more about the machine's other work than about ours.
settings.register_profile("house", deadline=None)
settings.load_profile("house")
