"""Makes ``demo_series/``: renders its photos and plays the series through.

Run ``python -m tests.make_demo`` from the project's folder. Nothing of it runs
when the demo is served: it is how the files there came to be.
"""
