"""The planner against published jobs, everyday ones, and what else a person would use.

``python -m tests.benchmarks.cutting`` writes the report beside this package. Its
sections can be made one by one; the others stay as they are in the report.
"""
