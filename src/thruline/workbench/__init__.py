"""The workbench: the rig on pages in a browser.

Comes in: requests of a browser on this machine, or on a device that was let in. Goes out: pages,
answers in JSON, events. Thin: it asks `app`, and what is kept where comes from `wiring`.
"""
